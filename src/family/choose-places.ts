import { placedAtStations, type Family } from './expect.ts';

/** A figure that is asked for: weights of the values at the stations of A, then of B, 2 m numbers. */
export type Asked = Float64Array;

/** What is known of both blades' stations, 2 m x 2 m, and of what is asked. */
export interface Knowing {
  readonly covariance: Float64Array;
  /** The asked figures times the covariance, one row each. */
  readonly asked: Float64Array;
  readonly noiseMm2: Float64Array;
}

/** What a family lets expect of both blades, before any reading. */
export function beforeReading(family: Family, asked: readonly Asked[], seatingMm: number): Knowing {
  const m = family.meanMm.length;
  const n = 2 * m;
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const k = (i % m) * m + (j % m);
      covariance[i * n + j] = family.common[k]! + (i < m === j < m ? family.own[k]! : 0);
    }
  const through = new Float64Array(asked.length * n);
  asked.forEach((weights, t) => {
    for (let i = 0; i < n; i++) {
      const weight = weights[i]!;
      if (weight !== 0) for (let j = 0; j < n; j++) through[t * n + j]! += weight * covariance[i * n + j]!;
    }
  });
  const placed = placedAtStations(family);
  return {
    covariance,
    asked: through,
    noiseMm2: Float64Array.from({ length: n }, (_, i) => seatingMm ** 2 + placed[i % m]!),
  };
}

/** What a reading at each place would take off the variances of what is asked, in sum, mm2. */
export function worthOf({ covariance, asked, noiseMm2 }: Knowing): Float64Array {
  const n = noiseMm2.length;
  const count = asked.length / n;
  return noiseMm2.map((noise, k) => {
    let squares = 0;
    for (let t = 0; t < count; t++) squares += asked[t * n + k]! ** 2;
    return squares / (covariance[k * n + k]! + noise);
  });
}

/** The same after a reading at one place. */
export function afterReading({ covariance, asked, noiseMm2 }: Knowing, place: number): Knowing {
  const n = noiseMm2.length;
  const column = covariance.slice(place * n, (place + 1) * n);
  const variance = column[place]! + noiseMm2[place]!;
  const known = covariance.slice();
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) known[i * n + j]! -= (column[i]! * column[j]!) / variance;
  const count = asked.length / n;
  const left = asked.slice();
  for (let t = 0; t < count; t++) {
    const gain = asked[t * n + place]! / variance;
    for (let j = 0; j < n; j++) left[t * n + j]! -= gain * column[j]!;
  }
  return { covariance: known, asked: left, noiseMm2 };
}

/** The places that tell most of what is asked, one after the other, so many of each blade. Numbers as in `Asked`. */
export function choosePlaces(before: Knowing, eachBlade: number): number[] {
  const m = before.noiseMm2.length / 2;
  const chosen: number[] = [];
  let knowing = before;
  const taken = [0, 0];
  while (chosen.length < 2 * eachBlade) {
    const worth = worthOf(knowing);
    let best = -1;
    worth.forEach((value, k) => {
      if (taken[Math.floor(k / m)]! < eachBlade && !chosen.includes(k) && (best < 0 || value > worth[best]!))
        best = k;
    });
    chosen.push(best);
    taken[Math.floor(best / m)]!++;
    knowing = afterReading(knowing, best);
  }
  return chosen;
}
