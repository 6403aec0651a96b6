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

/** A functional's variance before readings narrowed it, and where it is not zero. */
interface Unnarrowed {
  readonly from: Float64Array;
  readonly support: Int32Array;
  readonly variance: number;
}

/** The same figures are asked for with every reading: what does not change with it is worked out once. */
const unnarrowed = new WeakMap<Float64Array, Unnarrowed>();

function beforeNarrowing(a: Float64Array, from: Float64Array): Unnarrowed {
  const known = unnarrowed.get(a);
  if (known?.from === from) return known;
  const support = supportOf(a);
  const now = { from, support, variance: quadratic(a, from, support) };
  unnarrowed.set(a, now);
  return now;
}

/**
 * a' C a.
 *
 * @param a Not changed afterwards.
 */
export function varianceOf(posterior: BladePosterior, a: Float64Array): number {
  if (!posterior.narrowed) return quadratic(a, posterior.covariance);
  const { from, by } = posterior.narrowed;
  const before = beforeNarrowing(a, from);
  const { support } = before;
  let { variance } = before;
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
