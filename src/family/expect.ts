import { cholesky, inverseFromCholesky } from '../numerics/cholesky.ts';
import { addTimes } from '../numerics/dense.ts';
import { multiply } from '../numerics/quadratic-form.ts';
import { addSparse, sparseDot, sparseTimes, type SparseWeights } from '../numerics/sparse-row.ts';
import type { Lean } from './interpolation.ts';
import type { Told } from './read-reed.ts';

/**
 * What a maker's reeds are drawn from, at m stations: each blade is the mean, what both blades of the reed do alike, and
 * what it does by itself.
 */
export interface Family {
  readonly meanMm: Float64Array;
  /** m x m, row by row, mm2: of both alike, and of each. */
  readonly common: Float64Array;
  readonly own: Float64Array;
  /** Placement of the hand along, one standard deviation. */
  readonly placementMm: number;
  /** How the mean leans at each station. */
  readonly leans: readonly Lean[];
}

/** Half-width of a blade that placement across is taken by, mm. Common practice, no source. */
const HALF_WIDTH_MM = 3.2;
/** Across is held by the tongue, so that it errs less than along. Common practice, no source. */
const ACROSS_SHARE = 1 / 3;

export function placedMm2(placementMm: number, { along, across }: Lean): number {
  return placementMm ** 2 * (along ** 2 + ((across * ACROSS_SHARE) / HALF_WIDTH_MM) ** 2);
}

function leanAt({ index, weight }: SparseWeights, leans: readonly Lean[]): Lean {
  const lean = { along: 0, across: 0 };
  index.forEach((k, a) => {
    lean.along += weight[a]! * leans[k]!.along;
    lean.across += weight[a]! * leans[k]!.across;
  });
  return lean;
}

/** How the variance of each reading grows with the square of placement along. */
export const perPlacement = ({ rows, share }: Told, { leans }: Family) =>
  share.map((value, i) => value * placedMm2(1, leanAt(rows[i]!, leans)));

/** Covariance of n readings under a family, n x n; lower triangle. */
export function readingsCovariance(
  { rows, blade, noiseMm2, share, zeroMm }: Told,
  { common, own, leans, placementMm }: Family,
): Float64Array {
  const n = rows.length;
  const m = leans.length;
  const covariance = new Float64Array(n * n);
  rows.forEach((row, i) => {
    const [byCommon, byOwn] = [sparseTimes(row, common, m), sparseTimes(row, own, m)];
    for (let j = 0; j <= i; j++)
      covariance[i * n + j] =
        zeroMm ** 2 +
        sparseDot(rows[j]!, byCommon) +
        (blade[i] === blade[j] ? sparseDot(rows[j]!, byOwn) : 0);
    covariance[i * n + i]! += noiseMm2[i]! + share[i]! * placedMm2(placementMm, leanAt(row, leans));
  });
  return covariance;
}

/** One way of reading under a family. */
export interface Expected {
  /** S^-1 of the readings' covariance, n x n. */
  readonly inverse: Float64Array;
}

export function expectedOf(told: Told, family: Family): Expected {
  const n = told.rows.length;
  return { inverse: inverseFromCholesky(cholesky(readingsCovariance(told, family), n), n) };
}

/** Adds Z'S^-1 Z of so many reeds, m x m: over both blades together, and over each by itself, in sum. */
export function addPrecision(
  sums: { readonly precision: Float64Array; readonly eachPrecision: Float64Array },
  { rows, blade }: Told,
  { inverse }: Expected,
  reeds: number,
): void {
  const [n, m] = [rows.length, Math.sqrt(sums.precision.length)];
  rows.forEach(({ index, weight }, i) => {
    const [every, same] = [new Float64Array(m), new Float64Array(m)];
    rows.forEach((row, j) => {
      addSparse(every, row, inverse[i * n + j]!);
      if (blade[i] === blade[j]) addSparse(same, row, inverse[i * n + j]!);
    });
    index.forEach((k, a) => {
      addTimes(sums.precision.subarray(k * m, (k + 1) * m), every, reeds * weight[a]!);
      addTimes(sums.eachPrecision.subarray(k * m, (k + 1) * m), same, reeds * weight[a]!);
    });
  });
}

/** What n readings lie off what was expected, mm. */
export const surprisesOf = ({ rows }: Pick<Told, 'rows'>, meanMm: Float64Array, thicknessMm: Float64Array) =>
  thicknessMm.map((value, i) => value - sparseDot(rows[i]!, meanMm));

/** What readings surprise by, r, and what that pulls. */
export interface Pull {
  /** S^-1 r. */
  readonly byReading: Float64Array;
  /** Z'S^-1 r of each blade, m numbers. */
  readonly byBlade: readonly [Float64Array, Float64Array];
}

export function pullOf(
  { rows, blade }: Told,
  { inverse }: Expected,
  meanMm: Float64Array,
  thicknessMm: Float64Array,
): Pull {
  const byReading = multiply(inverse, rows.length, surprisesOf({ rows }, meanMm, thicknessMm));
  const byBlade = [new Float64Array(meanMm.length), new Float64Array(meanMm.length)] as const;
  rows.forEach((row, i) => addSparse(byBlade[blade[i] === 0 ? 0 : 1], row, byReading[i]!));
  return { byReading, byBlade };
}
