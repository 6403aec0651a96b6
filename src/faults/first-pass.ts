import { cholesky, inverseFromCholesky, logDeterminant } from '../numerics/cholesky.ts';
import { dot } from '../numerics/quadratic-form.ts';
import { whitenedVector } from '../numerics/whitening.ts';
import { LOG_PLACEMENT_SD } from '../surface/noise-from-pairs.ts';
import { PRIOR_MEAN_MM } from '../surface/roughness-evidence.ts';
import type { FitReading } from '../surface/reed-model.ts';
import type { JudgedPass, Noise } from './explanation.ts';
import { slopesByRow } from '../surface/slopes-by-row.ts';
import { digitsTurned, NAMED_SDS, TENTH_MM, type OddReading } from './single-readings.ts';

/**
 * What the blades of a reed have in common, and what each has of its own: standard deviations, mm, and ranges, mm along and
 * half-widths across. Found on generated reeds of several families.
 */
const PARTS = [
  { sdMm: 0.18, alongMm: 3, across: 1.6, isCommon: true },
  { sdMm: 0.03, alongMm: 1.6, across: 0.4, isCommon: true },
  { sdMm: 0.015, alongMm: 4, across: 0.9, isCommon: false },
  { sdMm: 0.008, alongMm: 1.6, across: 0.35, isCommon: false },
] as const;
/** Behind the ridge a blade changes half as fast along its length. */
const GENTLE_FROM_TIP_MM = 8;
/** Fewer readings lead to expect nothing of one of them. */
const FEWEST_READINGS = 30;
const ODD = { sds: 4.6, mm: 0.03 };
/** A slip put right lands within this many standard deviations of what was expected. */
const LANDING_SDS = 2.5;
const MOST_ODD = 4;

/**
 * Readings of a first pass that its other readings do not lead to expect: its neighbours, and the same place of the facing
 * blade. The oddest first, each judged without those before it.
 *
 * Source: leave-one-out residuals of a Gaussian process, Rasmussen & Williams 2006, eq. 5.12, from memory.
 */
export function oddFirstReadings({ readings }: JudgedPass, usual: Noise, stepMm: number): OddReading[] {
  const noise = readings.length < FEWEST_READINGS ? usual : likeliestHand(readings, usual);
  return setApart(readings, FEWEST_READINGS, (left) => leftOut(left, noise)).odd.map((one) =>
    asOdd(one, stepMm),
  );
}

/**
 * The oddest readings, one after the other, each judged without those before it, and the readings that are left.
 *
 * @param fewest So many there must be to lead to expect anything of one of them.
 * @param judge Each reading by the others.
 */
export function setApart(
  readings: readonly FitReading[],
  fewest: number,
  judge: (left: readonly FitReading[]) => readonly FirstOdd[],
): { readonly odd: readonly FirstOdd[]; readonly left: readonly FitReading[] } {
  const odd: FirstOdd[] = [];
  let left = readings;
  while (odd.length < MOST_ODD && left.length >= fewest) {
    const oddest = judge(left).reduce((most, one) => (Math.abs(one.sds) > Math.abs(most.sds) ? one : most));
    if (Math.abs(oddest.sds) < ODD.sds || Math.abs(oddest.offMm) < ODD.mm) break;
    odd.push(oddest);
    left = left.filter((reading) => reading !== oddest.reading);
  }
  return { odd, left };
}

/** Hands that are tried, against the usual one, and how far hands stray from it, as the logarithm of a factor. */
const HANDS = [1 / 3, 0.6, 1, 5 / 3, 7 / 3];
/** Tails of readings one after the other, each by those before it: Student's t with so many degrees. */
const TAILS = 4;

/** The noise with the placement that makes the readings likeliest; heavy tails, so that a slip is no bad hand. */
function likeliestHand(readings: readonly FitReading[], usual: Noise): Noise {
  const n = readings.length;
  const deviation = readings.map(({ thicknessMm }) => thicknessMm - PRIOR_MEAN_MM);
  const tried = HANDS.map((factor) => {
    const noise = { ...usual, placementMm: usual.placementMm * factor };
    const root = cholesky(covarianceOf(readings, noise), n);
    const misfit = whitenedVector(root, n, deviation).reduce(
      (sum, z) => sum + (TAILS + 1) * Math.log(1 + (z * z) / TAILS),
      0,
    );
    const stray = (Math.log(factor) / LOG_PLACEMENT_SD) ** 2;
    return { noise, cost: misfit + logDeterminant(root, n) + stray };
  });
  return tried.reduce((best, other) => (other.cost < best.cost ? other : best)).noise;
}

/** A reading of a first pass beside what was expected of it. */
export interface FirstOdd {
  readonly reading: FitReading;
  /** Read less expected, mm, and its standard deviation. */
  readonly offMm: number;
  readonly uMm: number;
  readonly sds: number;
}

function leftOut(readings: readonly FitReading[], noise: Noise): FirstOdd[] {
  const n = readings.length;
  const covariance = covarianceOf(readings, noise);
  const inverse = inverseFromCholesky(cholesky(covariance, n), n);
  const deviation = Float64Array.from(readings, ({ thicknessMm }) => thicknessMm - PRIOR_MEAN_MM);
  return readings.map((reading, i): FirstOdd => {
    const precision = inverse[i * n + i]!;
    const offMm = dot(inverse.subarray(i * n, (i + 1) * n), deviation) / precision;
    return { reading, offMm, uMm: 1 / Math.sqrt(precision), sds: offMm * Math.sqrt(precision) };
  });
}

function covarianceOf(readings: readonly FitReading[], noise: Noise): Float64Array {
  const n = readings.length;
  const slopes = slopesByRow(readings);
  const bent = readings.map(({ fromTipMm: y }) =>
    y > GENTLE_FROM_TIP_MM ? (y + GENTLE_FROM_TIP_MM) / 2 : y,
  );
  const covariance = new Float64Array(n * n);
  readings.forEach((a, i) => {
    for (let j = 0; j <= i; j++) {
      const b = readings[j]!;
      const [along, across] = [Math.abs(bent[i]! - bent[j]!), Math.abs(a.across - b.across)];
      for (const part of PARTS)
        if (part.isCommon || a.blade === b.blade)
          covariance[i * n + j]! +=
            part.sdMm ** 2 * matern(along / part.alongMm) * matern(across / part.across);
    }
    const placed = noise.placementMm * slopes.get(a.fromTipMm)!;
    covariance[i * n + i]! += (noise.seatingMm * a.noiseFactor) ** 2 / a.repeats + placed ** 2;
  });
  return covariance;
}

/** Matérn correlation of smoothness 5/2. Source: Rasmussen & Williams 2006, eq. 4.17, from memory. */
function matern(distance: number): number {
  const a = Math.sqrt(5) * distance;
  return (1 + a + (a * a) / 3) * Math.exp(-a);
}

/** With what was meant, where a slip leads to what was expected. */
export function asOdd({ reading, offMm, uMm, sds }: FirstOdd, stepMm: number): OddReading {
  const { thicknessMm } = reading;
  const expectedMm = thicknessMm - offMm;
  const meantMm = [...digitsTurned(thicknessMm, stepMm), thicknessMm - TENTH_MM, thicknessMm + TENTH_MM]
    .filter((mm) => mm > 0 && Math.abs(mm - expectedMm) <= LANDING_SDS * uMm)
    .sort((a, b) => Math.abs(a - expectedMm) - Math.abs(b - expectedMm))[0];
  const isNamed = meantMm !== undefined && Math.abs(sds) >= NAMED_SDS;
  return {
    ...{ reading, expectedMm, sds },
    ...(meantMm !== undefined && { meantMm }),
    grade: isNamed ? 'named' : 'asked',
  };
}
