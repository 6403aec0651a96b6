import { dot, quadratic, supportOf, symmetricTimes } from '../numerics/quadratic-form.ts';
import type { BladePosterior, Narrowed } from './reed-model.ts';

// Not taken apart: that would write the covariance out.
const narrowedOf = (posterior: BladePosterior): Narrowed =>
  posterior.narrowed ?? { from: posterior.covariance, by: [] };

/** C a, with n coefficients. */
export function covarianceTimes(posterior: BladePosterior, a: Float64Array): Float64Array {
  const { from, by } = narrowedOf(posterior);
  const product = symmetricTimes(from, a);
  for (const r of by) {
    const along = dot(r, a);
    for (let i = 0; i < product.length; i++) product[i]! -= along * r[i]!;
  }
  return product;
}

/** a' C a. */
export function varianceOf(posterior: BladePosterior, a: Float64Array): number {
  const { from, by } = narrowedOf(posterior);
  const support = supportOf(a);
  let variance = quadratic(a, from, support);
  for (const r of by) {
    let along = 0;
    for (let k = 0; k < support.length; k++) along += r[support[k]!]! * a[support[k]!]!;
    variance -= along ** 2;
  }
  return variance;
}

/**
 * A posterior moved by one reading, at a cost of n, not of n squared.
 *
 * @param by r, where the reading takes r r' off the covariance; absent on the other blade.
 */
export function narrowedBy(
  posterior: BladePosterior,
  { mean, loadings }: Pick<BladePosterior, 'mean' | 'loadings'>,
  by?: Float64Array,
): BladePosterior {
  const before = narrowedOf(posterior);
  const narrowed = { from: before.from, by: by ? [...before.by, by] : before.by };
  let whole: Float64Array | undefined;
  return {
    mean,
    loadings,
    narrowed,
    get covariance() {
      return (whole ??= writtenOut(narrowed));
    },
  };
}

/** n x n, symmetric to the bit. */
function writtenOut({ from, by }: Narrowed): Float64Array {
  const n = Math.sqrt(from.length);
  const whole = from.slice();
  for (const r of by)
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) whole[i * n + j]! -= r[i]! * r[j]!;
  return whole;
}
