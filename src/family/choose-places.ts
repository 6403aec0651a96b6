/** What is known of n places of a reed that may be read, and of t figures that are asked for. Plain data. */
export interface Knowing {
  /** What a reading at each place would show, mm. */
  readonly meanMm: Float64Array;
  /** Covariance of these readings, n x n, row by row, mm2, without what each adds by itself. */
  readonly covariance: Float64Array;
  /** What one reading at each place adds by itself: seating and placement, mm2. */
  readonly noiseMm2: Float64Array;
  /** Covariance of each figure with the readings, t x n, and its own variance. */
  readonly asked: Float64Array;
  readonly askedMm2: Float64Array;
}

/** A reading at one of the places. */
export interface PlaceRead {
  readonly place: number;
  readonly thicknessMm: number;
  /** Variance of its own by that of a single sound reading: 1 / n for the mean of n. */
  readonly share: number;
}

/** The variance of a reading at a place before it is read. */
const readingMm2 = ({ covariance, noiseMm2 }: Knowing, place: number, share = 1) =>
  covariance[place * (noiseMm2.length + 1)]! + share * noiseMm2[place]!;

/** The same after a reading: one step of a linear normal model. */
export function afterReading(knowing: Knowing, { place, thicknessMm, share }: PlaceRead): Knowing {
  const { noiseMm2 } = knowing;
  const [n, t] = [noiseMm2.length, knowing.askedMm2.length];
  const column = knowing.covariance.slice(place * n, (place + 1) * n);
  const variance = readingMm2(knowing, place, share);
  const surprise = thicknessMm - knowing.meanMm[place]!;
  const meanMm = knowing.meanMm.map((mm, i) => mm + (column[i]! * surprise) / variance);
  const [covariance, asked, askedMm2] = [
    knowing.covariance.slice(),
    knowing.asked.slice(),
    knowing.askedMm2.slice(),
  ];
  const take = (target: Float64Array, row: number, gain: number) => {
    for (let j = 0; j < n; j++) target[row * n + j]! -= gain * column[j]!;
  };
  for (let i = 0; i < n; i++) take(covariance, i, column[i]! / variance);
  for (let k = 0; k < t; k++) {
    const gain = knowing.asked[k * n + place]! / variance;
    take(asked, k, gain);
    askedMm2[k]! -= gain * knowing.asked[k * n + place]!;
  }
  return { meanMm, covariance, noiseMm2, asked, askedMm2 };
}

/** What was expected of a reading, and how far it lay off, in standard deviations. */
export function surpriseOf(knowing: Knowing, { place, thicknessMm, share }: PlaceRead) {
  const uMm = Math.sqrt(readingMm2(knowing, place, share));
  const expectedMm = knowing.meanMm[place]!;
  return { expectedMm, uMm, sds: (thicknessMm - expectedMm) / uMm };
}

/** Whether every figure is known so well. @param enoughMm2 Variance that is enough of each. */
export const isEnough = ({ askedMm2 }: Knowing, enoughMm2: Float64Array) =>
  askedMm2.every((mm2, k) => mm2 <= enoughMm2[k]!);

/**
 * What a reading at each place would take off the variances of those figures that are not known well enough, in sum, each
 * in parts of what is enough of it.
 */
export function worthOf(knowing: Knowing, enoughMm2: Float64Array): Float64Array {
  const { noiseMm2, asked, askedMm2 } = knowing;
  const n = noiseMm2.length;
  const open = Array.from(askedMm2.keys()).filter((k) => askedMm2[k]! > enoughMm2[k]!);
  return noiseMm2.map((_, place) => {
    const parts = open.reduce((sum, k) => sum + asked[k * n + place]! ** 2 / enoughMm2[k]!, 0);
    return parts / readingMm2(knowing, place);
  });
}

const variancesOf = ({ covariance, noiseMm2 }: Knowing) =>
  noiseMm2.map((_, place) => covariance[place * (noiseMm2.length + 1)]!);

/** The same as if every place had been read. */
export function allRead(before: Knowing): Knowing {
  return before.noiseMm2.reduce<Knowing>((knowing, _, place) => asExpected(knowing, place), before);
}

const asExpected = (knowing: Knowing, place: number) =>
  afterReading(knowing, { place, thicknessMm: knowing.meanMm[place]!, share: 1 });

/**
 * The places that tell most of what is asked, one after the other, until every figure is known well enough or no place is
 * left; then those of which least is known.
 *
 * @param enoughMm2 Variance that is enough of each figure.
 * @param bounds `isOpen` tells which places may be chosen; `least` of them are, though all is known.
 */
export function choosePlaces(
  before: Knowing,
  enoughMm2: Float64Array,
  { isOpen = () => true, least = 0 }: { isOpen?: (place: number) => boolean; least?: number } = {},
): number[] {
  const chosen: number[] = [];
  for (let knowing = before; ;) {
    const isKnown = isEnough(knowing, enoughMm2);
    if (isKnown && chosen.length >= least) break;
    const worth = isKnown ? variancesOf(knowing) : worthOf(knowing, enoughMm2);
    let best = -1;
    worth.forEach((value, place) => {
      if ((best < 0 || value > worth[best]!) && isOpen(place) && !chosen.includes(place)) best = place;
    });
    if (best < 0) break;
    chosen.push(best);
    knowing = asExpected(knowing, best);
  }
  return chosen;
}

/** As much of it as bears on some of the figures. */
export function asking(knowing: Knowing, figures: readonly number[]): Knowing {
  const n = knowing.noiseMm2.length;
  const asked = new Float64Array(figures.length * n);
  figures.forEach((k, row) => asked.set(knowing.asked.subarray(k * n, (k + 1) * n), row * n));
  return { ...knowing, asked, askedMm2: Float64Array.from(figures, (k) => knowing.askedMm2[k]!) };
}
