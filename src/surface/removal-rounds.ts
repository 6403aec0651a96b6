import { cholesky } from '../numerics/cholesky.ts';
import { rowsTimes, rowTimes, type SparseRows } from '../numerics/sparse-rows.ts';
import { blockTimes, columnSquares, whiten, whitenedVector } from '../numerics/whitening.ts';
import { firstVariances, widenedVariances, type RemovalSpace, type RemovalSpread } from './removal-space.ts';
import type { Expected } from './with-shared.ts';

/** Rounds in which a removal widens its own prior. */
const ROUNDS = 2;

/**
 * Prior variances of what went before a pass: narrow at first, widened where the pass shows that cane went. Only this
 * pass and those before it are asked, so that the prior stays what it is when more passes come.
 *
 * @param expected The readings before the removal opens.
 * @param removalRows How they move with the removal's coefficients.
 */
export function roundsOf(
  { covariance, surprise }: Expected,
  removalRows: SparseRows,
  { space, spread }: { readonly space: RemovalSpace; readonly spread: RemovalSpread },
): Float64Array {
  let variances = firstVariances(space);
  for (let round = 0; round < ROUNDS; round++) {
    const went = whatWent(covariance, surprise, removalRows, spread, variances);
    variances = widenedVariances(space, went, variances);
  }
  return variances;
}

/** Mean and variance of a removal by one pass's readings, its prior given. */
function whatWent(
  baseCovariance: Float64Array,
  surprise: Float64Array,
  rows: SparseRows,
  spread: RemovalSpread,
  variances: Float64Array,
): { mean: Float64Array; left: Float64Array } {
  const n = rows.count;
  const size = spread.size;
  const values = rowsTimes(rows, spread.full(variances), size);
  const covariance = baseCovariance.slice();
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) covariance[i * n + j]! += rowTimes(rows, j, values, i * size);
  const factor = cholesky(covariance, n);
  const block = { values, columns: size, firstRow: 0, offset: 0 };
  whiten(factor, n, block);
  const gain = columnSquares(block);
  return {
    mean: blockTimes(block, whitenedVector(factor, n, surprise)),
    left: spread.variances(variances).map((variance, m) => Math.max(0, variance - gain[m]!)),
  };
}
