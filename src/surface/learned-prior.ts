import { cholesky } from '../numerics/cholesky.ts';
import { knotSpacing } from '../numerics/uniform-b-spline.ts';
import { rowsTimes, rowTimes, sparseRows } from '../numerics/sparse-rows.ts';
import { blockTimes, subtractGram, whiten, whitenedVector, type ColumnBlock } from '../numerics/whitening.ts';
import { basePrior, type BasePrior } from './base-prior.ts';
import { baseRow, type BaseSpace } from './base-surface.ts';
import type { Roughness } from './roughness-evidence.ts';
import type { SharedError } from './shared-errors.ts';
import { warped } from './warp.ts';

/** A place of a blade as it is counted from its tip. */
export interface Station {
  readonly fromTipMm: number;
  readonly across: number;
}

/**
 * What a maker's earlier reeds lead to expect of one that was not read yet: what a place usually reads, and with what
 * freedom. Between the stations nothing was learned, and the usual prior stands. Plain data.
 */
export interface LearnedPrior {
  /** m places. */
  readonly stations: readonly Station[];
  /** Thickness expected at each, mm. */
  readonly meanMm: Float64Array;
  /** m x r, row by row: what both blades of a reed do alike, for each of r unknowns of variance 1, mm. */
  readonly common: Float64Array;
  /** m x m, row by row: covariance of what each blade does by itself, mm2. */
  readonly own: Float64Array;
  readonly logPrecisions: Roughness['logPrecisions'];
  /** How steep the ridge is, mm per mm, and where. */
  readonly rise: number;
  readonly ridgeFromTipMm: number;
  /** Placement of the maker's hand along the blade, one standard deviation. */
  readonly placementMm: number;
  /** How much more than usual the maker's knife takes about each station, in variance; absent where that was not learned. */
  readonly knife?: Float64Array;
  /** How many reeds it was learned from. */
  readonly reeds: number;
}

export const commonCount = ({ common, stations }: LearnedPrior) => common.length / stations.length;

/** The errors that stand for what both blades of a reed do alike: no reading moves with them but through the blades. */
export function commonErrors(learned: LearnedPrior | undefined): SharedError[] {
  return Array.from({ length: learned ? commonCount(learned) : 0 }, () => ({ kind: 'common', variance: 1 }));
}

/** Keeps stations so near to each other that one tells the other from making a factor singular, mm2. */
const JITTER_MM2 = 1e-9;

/**
 * The learned prior in a blade's coefficients: W v + what no station shows, v the values at the stations and W their
 * interpolation under the usual prior. Where v is as the usual prior has it, so is all.
 *
 * @param lengthMm Tip to cork end, of the pass from whose tip the stations are counted.
 */
export function learnedBasePrior(space: BaseSpace, learned: LearnedPrior, lengthMm: number): BasePrior {
  const usual = basePrior(space, learned, learned.rise);
  const kept = stationsWithin(space, learned.stations, lengthMm);
  const [m, r] = [kept.length, commonCount(learned)];
  const { factor, block } = interpolation(space, usual, learned, kept, lengthMm);
  const n = block.columns;
  subtractGram(usual.covariance, n, [block]);
  widenBehind(usual.covariance, space, lengthMm);
  addSandwich(usual.covariance, block, whitenedBothWays(factor, submatrix(learned.own, kept)));
  /** What values at the stations make of the blade's coefficients. */
  const spread = (valueAt: (station: number) => number) =>
    blockTimes(block, whitenedVector(factor, m, kept.map(valueAt)));
  const offsetMm = spread((k) => learned.meanMm[k]! - usual.meanMm);
  const common = new Float64Array(n * r);
  for (let c = 0; c < r; c++)
    spread((k) => learned.common[k * r + c]!).forEach((value, i) => (common[i * r + c] = value));
  return { ...usual, learned: { offsetMm, common, count: r } };
}

/**
 * What no station shows is the same on every reed of a maker, so that no number of them averages it out, and most where
 * spine and channels lie: so much more of it is left there, as one standard deviation. Tuned on invented makers.
 */
const BEHIND = { fromTipMm: 8, factor: 1.35 } as const;

function widenBehind(covariance: Float64Array, { warp, basis }: BaseSpace, lengthMm: number): void {
  const { along, across } = basis;
  const n = along.count * across.count;
  const last = (warped(warp, lengthMm - BEHIND.fromTipMm) - along.from) / knotSpacing(along) + 1;
  const factors = Float64Array.from({ length: n }, (_, k) =>
    Math.floor(k / across.count) < last ? BEHIND.factor : 1,
  );
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) covariance[i * n + j]! *= factors[i]! * factors[j]!;
}

/** The prior of one blade alone, what both do alike among its own doubt. */
export function ofOneBlade({ meanMm, covariance, learned }: BasePrior): BasePrior {
  if (!learned) return { meanMm, covariance };
  const { common, count, offsetMm } = learned;
  const whole = covariance.slice();
  const n = offsetMm.length;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      for (let c = 0; c < count; c++) whole[i * n + j]! += common[i * count + c]! * common[j * count + c]!;
  return { meanMm, covariance: whole, learned: { offsetMm, common: new Float64Array(0), count: 0 } };
}

/** The stations that lie within a space, by their places in the list. */
function stationsWithin(
  { warp, basis }: BaseSpace,
  stations: readonly Station[],
  lengthMm: number,
): number[] {
  const { from, to } = basis.along;
  return stations.flatMap(({ fromTipMm }, k) => {
    const y = warped(warp, lengthMm - fromTipMm);
    return y >= from && y <= to ? [k] : [];
  });
}

/** L with L L' = H Pi H', and L^-1 H Pi. */
function interpolation(
  space: BaseSpace,
  { covariance }: BasePrior,
  { stations }: LearnedPrior,
  kept: readonly number[],
  lengthMm: number,
): { factor: Float64Array; block: ColumnBlock } {
  const [m, n] = [kept.length, Math.sqrt(covariance.length)];
  const rows = sparseRows(
    kept.map((k) => baseRow(space, lengthMm - stations[k]!.fromTipMm, stations[k]!.across)),
  );
  const values = rowsTimes(rows, covariance, n);
  const atStations = new Float64Array(m * m);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j <= i; j++) atStations[i * m + j] = rowTimes(rows, j, values, i * n);
    atStations[i * m + i]! += JITTER_MM2;
  }
  const factor = cholesky(atStations, m);
  const block = { values, columns: n, firstRow: 0, offset: 0 };
  whiten(factor, m, block);
  return { factor, block };
}

function submatrix(matrix: Float64Array, kept: readonly number[]): Float64Array {
  const whole = Math.sqrt(matrix.length);
  return Float64Array.from(kept.flatMap((i) => kept.map((j) => matrix[i * whole + j]!)));
}

/** L^-1 S L^-T for a symmetric S, m x m. */
function whitenedBothWays(factor: Float64Array, values: Float64Array): Float64Array {
  const m = Math.sqrt(values.length);
  const block = { values, columns: m, firstRow: 0, offset: 0 };
  whiten(factor, m, block);
  for (let i = 0; i < m; i++)
    for (let j = 0; j < i; j++)
      [values[i * m + j], values[j * m + i]] = [values[j * m + i]!, values[i * m + j]!];
  whiten(factor, m, block);
  return values;
}

/** C + A'S A for A's m rows and a symmetric S, in place. */
function addSandwich(c: Float64Array, { values, columns: n }: ColumnBlock, s: Float64Array): void {
  const m = Math.sqrt(s.length);
  for (let i = 0; i < m; i++) {
    const row = blockTimes({ values, columns: n, firstRow: 0, offset: 0 }, s.slice(i * m, (i + 1) * m));
    for (let p = 0; p < n; p++) {
      const weight = values[i * n + p]!;
      for (let q = 0; q < n; q++) c[p * n + q]! += weight * row[q]!;
    }
  }
}
