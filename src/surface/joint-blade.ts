import { cholesky } from '../numerics/cholesky.ts';
import { sparseDot, type SparseWeights } from '../numerics/sparse-row.ts';
import {
  blockProduct,
  blockTimes,
  columnSquares,
  subtractGram,
  whiten,
  whitenedVector,
  type ColumnBlock,
} from '../numerics/whitening.ts';
import type { BasePrior } from './base-prior.ts';
import { baseRow } from './base-surface.ts';
import type { BladeLayout } from './blade-layout.ts';
import { FIRST_REMOVAL_SD_MM, removalPrior, removalRow, widenedVariances } from './removal-space.ts';
import type { NoisyReading } from './sweep.ts';

const SHARED_PER_PASS = 3;

/** What the readings say of one blade, apart from the errors that it shares with the other. */
export interface BladeEvidence {
  readonly layout: BladeLayout;
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  /** count x shared errors. */
  readonly loadings: Float64Array;
  /** X' K^-1 X and X' K^-1 r: what this blade says of the shared errors. */
  readonly sharedPrecision: Float64Array;
  readonly sharedPull: Float64Array;
}

/** Rounds in which removal widens its own prior. */
const ROUNDS = 2;

type RemovalPlace = Omit<ColumnBlock, 'values'>;

/** One blade's readings, in the order of their passes, with all that does not change from round to round. */
interface Problem {
  readonly layout: BladeLayout;
  readonly prior: BasePrior;
  readonly readings: readonly NoisyReading[];
  readonly removalRows: readonly SparseWeights[];
  /** Prior covariance of the readings with the base coefficients. */
  readonly throughPrior: ColumnBlock;
  /** Covariance of the readings from base surface and noise; lower triangle. */
  readonly still: Float64Array;
  /** Where each pass's removal stands: the first reading that it touches, its first coefficient. */
  readonly removals: readonly RemovalPlace[];
  /** How each reading moves with each shared error. */
  readonly effects: ColumnBlock;
  readonly shared: Float64Array;
  readonly deviation: Float64Array;
}

/**
 * Posterior of one blade by the readings' own covariance (as in kriging), so that the cost goes with the readings and
 * not with the coefficients.
 *
 * @param unordered Readings in any order.
 * @param shared Prior variances of the shared errors, three for each pass.
 */
export function fitBlade(
  layout: BladeLayout,
  prior: BasePrior,
  unordered: readonly NoisyReading[],
  shared: Float64Array,
  given?: readonly Float64Array[],
): BladeEvidence {
  const problem = pose(layout, prior, unordered, shared);
  return posterior(problem, given ?? removalPriors(problem));
}

function pose(
  layout: BladeLayout,
  prior: BasePrior,
  unordered: readonly NoisyReading[],
  shared: Float64Array,
): Problem {
  // In the order of the passes a removal touches no reading before its own pass: half the work falls away.
  const readings = [...unordered].sort((a, b) => a.pass - b.pass);
  const baseRows = readings.map(({ zMm, reading }) => baseRow(layout.base, zMm, reading.across));
  const removalRows = readings.map(({ zMm, reading }) => removalRow(layout.removal, zMm, reading.across));
  const throughPrior = priorColumns(baseRows, prior, layout.baseCount);
  return {
    layout,
    prior,
    readings,
    removalRows,
    throughPrior,
    still: stillCovariance(baseRows, throughPrior, readings),
    removals: layout.removalPasses.map((_, block) => removalPlace(layout, readings, block)),
    effects: effectColumns(readings, shared.length),
    shared,
    deviation: Float64Array.from(readings, ({ reading }) => reading.thicknessMm - prior.meanMm),
  };
}

function effectColumns(readings: readonly NoisyReading[], columns: number): ColumnBlock {
  const values = new Float64Array(readings.length * columns);
  readings.forEach(({ reading, pass, slopeAlong }, i) => {
    values.set([1, reading.thicknessMm, slopeAlong], i * columns + SHARED_PER_PASS * pass);
  });
  return { values, columns, firstRow: 0, offset: 0 };
}

function priorColumns(rows: readonly SparseWeights[], prior: BasePrior, columns: number): ColumnBlock {
  const values = new Float64Array(rows.length * columns);
  rows.forEach((row, i) => addRowTimes(values, i * columns, row, prior.covariance, columns, 1));
  return { values, columns, firstRow: 0, offset: 0 };
}

/** Adds `factor` times a sparse row times a matrix, four of the row's sixteen weights at a time. */
function addRowTimes(
  target: Float64Array,
  at: number,
  { index, weight }: SparseWeights,
  m: Float64Array,
  columns: number,
  factor: number,
): void {
  for (let k = 0; k < index.length; k += 4) {
    const a = factor * weight[k]!;
    const b = factor * weight[k + 1]!;
    const c = factor * weight[k + 2]!;
    const d = factor * weight[k + 3]!;
    const p = index[k]! * columns;
    const q = index[k + 1]! * columns;
    const r = index[k + 2]! * columns;
    const s = index[k + 3]! * columns;
    for (let j = 0; j < columns; j++)
      target[at + j]! += a * m[p + j]! + b * m[q + j]! + (c * m[r + j]! + d * m[s + j]!);
  }
}

function removalPlace(
  { removalPasses, baseCount, removalCount }: BladeLayout,
  readings: readonly NoisyReading[],
  block: number,
): RemovalPlace {
  const found = readings.findIndex(({ pass }) => pass >= removalPasses[block]!);
  const firstRow = found < 0 ? readings.length : found;
  return { columns: removalCount, firstRow, offset: baseCount + block * removalCount };
}

function stillCovariance(
  rows: readonly SparseWeights[],
  { values, columns }: ColumnBlock,
  readings: readonly NoisyReading[],
): Float64Array {
  const n = readings.length;
  const k = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) k[i * n + j] = sparseDot(rows[j]!, values, i * columns);
    k[i * n + i]! += readings[i]!.variance;
  }
  return k;
}

/** Prior covariance of the readings with a pass's removal coefficients. */
function throughRemoval(
  { readings, removalRows, removals }: Problem,
  block: number,
  prior: Float64Array,
): ColumnBlock {
  const { columns, firstRow, offset } = removals[block]!;
  const values = new Float64Array(readings.length * columns);
  for (let i = firstRow; i < readings.length; i++) {
    addRowTimes(values, i * columns, removalRows[i]!, prior, columns, -1);
  }
  return { values, columns, firstRow, offset };
}

/** Covariance of the readings with what the passes took off; lower triangle. */
function withRemoval(
  { still, readings, removalRows }: Problem,
  through: readonly ColumnBlock[],
): Float64Array {
  const n = readings.length;
  const k = still.slice();
  for (const { values, columns, firstRow } of through) {
    for (let i = firstRow; i < n; i++)
      for (let j = firstRow; j <= i; j++) k[i * n + j]! -= sparseDot(removalRows[j]!, values, i * columns);
  }
  return k;
}

function addShared(k: Float64Array, { effects, shared, readings }: Problem): void {
  const n = readings.length;
  const { values, columns } = effects;
  for (let i = 0; i < n; i++) {
    const first = SHARED_PER_PASS * readings[i]!.pass;
    for (let j = i; j >= 0 && readings[j]!.pass === readings[i]!.pass; j--) {
      for (let m = first; m < first + SHARED_PER_PASS; m++)
        k[i * n + j]! += values[i * columns + m]! * shared[m]! * values[j * columns + m]!;
    }
  }
}

/** Prior covariances of the removals: narrow at first, widened where the readings show that cane went. */
function removalPriors(problem: Problem): Float64Array[] {
  const { layout, readings, removals, deviation } = problem;
  const n = readings.length;
  const size = layout.removalCount;
  const first = new Float64Array(size).fill(FIRST_REMOVAL_SD_MM ** 2);
  let priors = removals.map(() => removalPrior(layout.removal, first));
  if (priors.length === 0) return priors;
  for (let round = 0; round < ROUNDS; round++) {
    const through = priors.map((prior, block) => throughRemoval(problem, block, prior));
    const k = withRemoval(problem, through);
    addShared(k, problem);
    const factor = cholesky(k, n);
    const white = whitenedVector(factor, n, deviation);
    priors = priors.map((prior, block) => {
      const columns = through[block]!;
      whiten(factor, n, columns);
      const gain = columnSquares(columns);
      const left = gain.map((value, m) => Math.max(0, prior[m * size + m]! - value));
      return removalPrior(layout.removal, widenedVariances(layout.removal, blockTimes(columns, white), left));
    });
  }
  return priors;
}

/** Uses the problem up: its columns are whitened where they stand. */
function posterior(problem: Problem, priors: readonly Float64Array[]): BladeEvidence {
  const { layout, prior, readings, throughPrior, effects, deviation } = problem;
  const n = readings.length;
  const through = priors.map((removal, block) => throughRemoval(problem, block, removal));
  const factor = cholesky(withRemoval(problem, through), n);
  const blocks = [throughPrior, ...through];
  for (const block of [...blocks, effects]) whiten(factor, n, block);
  const white = whitenedVector(factor, n, deviation);
  const mean = new Float64Array(layout.count).fill(prior.meanMm, 0, layout.baseCount);
  const loadings = new Float64Array(layout.count * effects.columns);
  for (const block of blocks) {
    blockTimes(block, white).forEach((value, m) => (mean[block.offset + m]! += value));
    loadings.set(
      blockProduct(block, effects).map((value) => -value),
      block.offset * effects.columns,
    );
  }
  const covariance = priorCovariance(layout, prior, priors);
  subtractGram(covariance, layout.count, blocks);
  return {
    layout,
    mean,
    covariance,
    loadings,
    sharedPrecision: blockProduct(effects, effects),
    sharedPull: blockTimes(effects, white),
  };
}

function priorCovariance(
  { count, baseCount, removalCount }: BladeLayout,
  prior: BasePrior,
  removals: readonly Float64Array[],
): Float64Array {
  const covariance = new Float64Array(count * count);
  for (let i = 0; i < baseCount; i++) {
    covariance.set(prior.covariance.subarray(i * baseCount, (i + 1) * baseCount), i * count);
  }
  removals.forEach((removal, block) => {
    const offset = baseCount + block * removalCount;
    for (let m = 0; m < removalCount; m++) {
      const row = removal.subarray(m * removalCount, (m + 1) * removalCount);
      covariance.set(row, (offset + m) * count + offset);
    }
  });
  return covariance;
}
