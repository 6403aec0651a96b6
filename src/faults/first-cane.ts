import { cholesky, inverseFromCholesky, logDeterminant } from '../numerics/cholesky.ts';
import { leaveOneOut } from '../numerics/leave-one-out.ts';
import { multiply } from '../numerics/quadratic-form.ts';
import { whitenedVector } from '../numerics/whitening.ts';
import { LOG_PLACEMENT_SD } from '../surface/noise-from-pairs.ts';
import { PRIOR_MEAN_MM } from '../surface/roughness-evidence.ts';
import type { FitReading } from '../surface/reed-model.ts';
import { middlesByRow, slopesByRow } from '../surface/slopes-by-row.ts';
import type { Noise } from './explanation.ts';

/** A reading of a first pass beside what was expected of it. */
export interface FirstOdd {
  readonly reading: FitReading;
  /** Read less expected, mm, and its standard deviation. */
  readonly offMm: number;
  readonly uMm: number;
  readonly sds: number;
}

/**
 * What the blades of a reed have in common, and what each has of its own: standard deviations, mm, and ranges, mm along and
 * half-widths across. All but the first are those of cane of 0.3 mm, and grow with the thickness of a row. Found on generated
 * reeds of several families.
 */
const PARTS = [
  { sdMm: 0.18, alongMm: 3, across: 4, isCommon: true, grows: false },
  { sdMm: 0.03, alongMm: 2, across: 0.3, isCommon: true, grows: true },
  { sdMm: 0.015, alongMm: 4, across: 0.9, isCommon: false, grows: true },
  { sdMm: 0.008, alongMm: 1, across: 0.35, isCommon: false, grows: true },
] as const;
const OF_MM = 0.3;
/** A row that is thinner than this is as unlike as if it were not. */
const THIN_MM = 0.05;
/** Behind the ridge a blade changes half as fast along its length. */
const GENTLE_FROM_TIP_MM = 8;
/** Part of the row's own slope, squared, that counts beside the slope at the place. */
const ROW_SHARE = 0.2;

/**
 * Every reading of a first pass as all others lead to expect it, by the hand that makes them likeliest: placement moves a
 * reading by the slope that the others give the cane at its own place.
 *
 * Source: derivative of a Gaussian process's mean, Rasmussen & Williams 2006, eq. 9.4, from memory.
 *
 * @param usual Its placement is what hands stray from.
 */
export function leftOut(readings: readonly FitReading[], usual: Noise): FirstOdd[] {
  const cane = caneOf(readings);
  const rows = slopesByRow(readings);
  const ofRow = readings.map(({ fromTipMm }) => rows.get(fromTipMm)! ** 2);
  const first = solved(cane, ofRow, usual);
  const atPlace = ofRow.map((square, i) => slopeAt(cane, first, i) ** 2 + ROW_SHARE * square);
  const { inverse, pull } = solved(cane, atPlace, usual);
  return leaveOneOut(inverse, pull).map(({ off, u }, i) => ({
    ...{ reading: readings[i]!, offMm: off, uMm: u },
    sds: off / u,
  }));
}

/** Readings as the prior sees them: how their cane hangs together, and how far they lie from its mean, mm. */
interface FirstCane {
  readonly readings: readonly FitReading[];
  /** Distances from the tip, bent; times as unlike as cane of 0.3 mm. */
  readonly bent: readonly number[];
  readonly growth: readonly number[];
  /** n x n, row by row; the lower triangle. */
  readonly covariance: Float64Array;
  readonly deviation: Float64Array;
}

function caneOf(readings: readonly FitReading[]): FirstCane {
  const n = readings.length;
  const middles = middlesByRow(readings);
  const bent = readings.map(({ fromTipMm: y }) =>
    y > GENTLE_FROM_TIP_MM ? (y + GENTLE_FROM_TIP_MM) / 2 : y,
  );
  const growth = readings.map(({ fromTipMm }) => Math.max(THIN_MM, middles.get(fromTipMm)!) / OF_MM);
  const deviation = Float64Array.from(readings, ({ thicknessMm }) => thicknessMm - PRIOR_MEAN_MM);
  const cane = { readings, bent, growth, deviation, covariance: new Float64Array(n * n) };
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) cane.covariance[i * n + j] = together(cane, i, j, matern);
  return cane;
}

/** What two readings have in common by how their parts go along, mm². */
function together(
  { readings, bent, growth }: Omit<FirstCane, 'covariance'>,
  i: number,
  j: number,
  along: (distance: number, rangeMm: number) => number,
): number {
  const [a, b] = [readings[i]!, readings[j]!];
  let sum = 0;
  for (const part of PARTS)
    if (part.isCommon || a.blade === b.blade) {
      const size = part.sdMm ** 2 * (part.grows ? growth[i]! * growth[j]! : 1);
      sum += size * along(bent[i]! - bent[j]!, part.alongMm) * matern(a.across - b.across, part.across);
    }
  return sum;
}

/** Matérn correlation of smoothness 5/2. Source: Rasmussen & Williams 2006, eq. 4.17, from memory. */
function matern(distance: number, range: number): number {
  const a = (Math.sqrt(5) * Math.abs(distance)) / range;
  return (1 + a + (a * a) / 3) * Math.exp(-a);
}

/** Its derivative by the distance. */
function maternSlope(distance: number, range: number): number {
  const a = (Math.sqrt(5) * Math.abs(distance)) / range;
  return ((-5 * distance) / (3 * range * range)) * (1 + a) * Math.exp(-a);
}

/** Inverse covariance of readings, n x n, and what it makes of their deviations. */
interface Solved {
  readonly inverse: Float64Array;
  readonly pull: Float64Array;
}

function solved(cane: FirstCane, slopesSquared: readonly number[], usual: Noise): Solved {
  const n = cane.deviation.length;
  const inverse = inverseFromCholesky(likeliestRoot(cane, slopesSquared, usual), n);
  return { inverse, pull: multiply(inverse, n, cane.deviation) };
}

/** The slope along at a reading's place by all others, mm per mm. */
function slopeAt(cane: FirstCane, { inverse, pull }: Solved, i: number): number {
  const n = pull.length;
  const own = pull[i]! / inverse[i * n + i]!;
  let slope = 0;
  for (let j = 0; j < n; j++)
    slope += together(cane, i, j, maternSlope) * (pull[j]! - inverse[i * n + j]! * own);
  return cane.readings[i]!.fromTipMm > GENTLE_FROM_TIP_MM ? slope / 2 : slope;
}

/** Hands that are tried, against the usual one, and how far hands stray from it, as the logarithm of a factor. */
const HANDS = [1 / 3, 0.6, 1, 5 / 3, 7 / 3];
/** Tails of readings one after the other, each by those before it: Student's t with so many degrees. */
const TAILS = 4;

/** Of the covariance with the placement that makes the readings likeliest; heavy tails, so that a slip is no bad hand. */
function likeliestRoot(cane: FirstCane, slopesSquared: readonly number[], usual: Noise): Float64Array {
  const n = cane.readings.length;
  const tried = HANDS.map((factor) => {
    const covariance = cane.covariance.slice();
    cane.readings.forEach(({ noiseFactor, repeats }, i) => {
      const placed = (usual.placementMm * factor) ** 2 * slopesSquared[i]!;
      covariance[i * n + i]! += (usual.seatingMm * noiseFactor) ** 2 / repeats + placed;
    });
    const root = cholesky(covariance, n);
    const misfit = whitenedVector(root, n, cane.deviation).reduce(
      (sum, z) => sum + (TAILS + 1) * Math.log(1 + (z * z) / TAILS),
      0,
    );
    const stray = (Math.log(factor) / LOG_PLACEMENT_SD) ** 2;
    return { root, cost: misfit + logDeterminant(root, n) + stray };
  });
  return tried.reduce((best, other) => (other.cost < best.cost ? other : best)).root;
}
