import type { SparseWeights } from '../numerics/sparse-row.ts';
import { ACROSS_BASIS } from './base-surface.ts';
import { coefficientCount, designRow, type TensorBasis } from './tensor-basis.ts';

/** Where what one pass took off lives: a coarse tensor basis on the cane, plain z along and u across. */
export interface RemovalSpace extends TensorBasis {
  /** How much more than usual the maker's knife takes about each coefficient, in variance; absent where that was not learned. */
  readonly usually?: Float64Array;
}

/** Longest knot spacing along, mm: a stroke patch is 1.5 to 3 mm long. Common practice, no source. */
const SPACING_MM = 1.5;

export function removalSpace(fromZMm: number, toZMm: number): RemovalSpace {
  return {
    along: { from: fromZMm, to: toZMm, count: Math.max(4, Math.ceil((toZMm - fromZMm) / SPACING_MM) + 3) },
    across: ACROSS_BASIS,
  };
}

export function removalRow(space: RemovalSpace, zMm: number, u: number, dz = 0, du = 0): SparseWeights {
  return designRow(space, zMm, u, dz, du);
}

/** Standard deviation that a coefficient has before the readings speak, mm. Tuned on blades with a known truth. */
export const FIRST_REMOVAL_SD_MM = 0.0037;
/** Correlation of neighbouring coefficients along and across: a patch reaches over more than one knot. */
const ALONG_CORRELATION = 0.5;
const ACROSS_CORRELATION = 0.76;

/** Prior covariance of a pass's removal from its coefficients' variances, row by row; correlation falls with distance. */
export function removalPrior({ along, across }: RemovalSpace, variances: Float64Array): Float64Array {
  const n = variances.length;
  const columns = across.count;
  const sds = variances.map(Math.sqrt);
  const alongPowers = powers(ALONG_CORRELATION, along.count);
  const acrossPowers = powers(ACROSS_CORRELATION, columns);
  const prior = new Float64Array(n * n);
  for (let a = 0; a < n; a++) {
    const [i, j] = [Math.floor(a / columns), a % columns];
    for (let p = 0; p < along.count; p++) {
      const alike = alongPowers[Math.abs(i - p)]! * sds[a]!;
      for (let q = 0, b = p * columns; q < columns; q++, b++)
        prior[a * n + b] = alike * acrossPowers[Math.abs(j - q)]! * sds[b]!;
    }
  }
  return prior;
}

/**
 * How a removal is spread before it is read: a covariance Q, `size` x `size`, that follows from few numbers, so that a
 * step keeps these alone.
 */
export interface RemovalSpread {
  readonly size: number;
  /** Q's diagonal. */
  readonly variances: (prior: Float64Array) => Float64Array;
  /** Q, row by row. */
  readonly full: (prior: Float64Array) => Float64Array;
  /** Q X, for X of `size` rows of `width` numbers. */
  readonly times: (prior: Float64Array, x: Float64Array, width: number) => Float64Array;
}

/** The spread whose numbers are the coefficients' variances. */
export function spreadOf(space: RemovalSpace): RemovalSpread {
  return {
    size: coefficientCount(space),
    variances: (variances) => variances,
    full: (variances) => removalPrior(space, variances),
    times: (variances, x, width) => removalTimes(space, variances, x, width),
  };
}

/** Variances before any reading speaks. */
export function firstVariances(space: RemovalSpace): Float64Array {
  const { usually = new Float64Array(coefficientCount(space)).fill(1) } = space;
  return usually.map((ratio) => ratio * FIRST_REMOVAL_SD_MM ** 2);
}

/** The prior covariance times x, along and across one after the other. */
function removalTimes(
  { along, across }: RemovalSpace,
  variances: Float64Array,
  x: Float64Array,
  width: number,
): Float64Array {
  const product = x.slice();
  const rows = { x: product, width };
  const scale = () =>
    variances.forEach((variance, i) => {
      const sd = Math.sqrt(variance);
      for (let at = i * width; at < (i + 1) * width; at++) product[at]! *= sd;
    });
  scale();
  for (let i = 0; i < along.count; i++)
    timesPowers(rows, ACROSS_CORRELATION, { from: i * across.count, count: across.count, stride: 1 });
  for (let j = 0; j < across.count; j++)
    timesPowers(rows, ALONG_CORRELATION, { from: j, count: along.count, stride: across.count });
  scale();
  return product;
}

/**
 * Every `stride`-th row of `width` numbers, times the matrix of base^|i - j|, in place: what comes from before and from
 * behind.
 */
function timesPowers(
  { x, width }: { readonly x: Float64Array; readonly width: number },
  base: number,
  { from, count, stride }: { readonly from: number; readonly count: number; readonly stride: number },
): void {
  const step = stride * width;
  const [first, end] = [from * width, (from + count * stride) * width];
  for (let row = first + step; row < end; row += step)
    for (let at = row; at < row + width; at++) x[at]! += base * x[at - step]!;
  const behind = new Float64Array(width);
  for (let row = end - step; row >= first; row -= step)
    for (let k = 0; k < width; k++) {
      const at = row + k;
      // What stood here before it was added to what comes before.
      const own = row === first ? x[at]! : x[at]! - base * x[at - step]!;
      x[at]! += base * behind[k]!;
      behind[k] = own + base * behind[k]!;
    }
}

function powers(base: number, count: number): Float64Array {
  const result = new Float64Array(count).fill(1);
  for (let k = 1; k < count; k++) result[k] = result[k - 1]! * base;
  return result;
}

/** Knots over which neighbouring coefficients share their size. */
const SHARING = 0.75;
/** How strongly an estimated removal widens its own prior, so that a real scrape is not shrunk. */
const WIDENING = 3.6;
/** Where readings tell a smaller share of a coefficient than this, its square says little of its variance. */
const TOLD_LITTLE = 0.15;

/**
 * Prior variances for another round: what each coefficient's own square says of its variance, and its doubt, averaged
 * with its neighbours'. Places with no reading keep the variance they had; places where cane went get a wide one.
 *
 * @param before The variances that the estimate began with.
 */
export function widenedVariances(
  space: RemovalSpace,
  { mean, left }: { readonly mean: Float64Array; readonly left: Float64Array },
  before: Float64Array,
): Float64Array {
  const [rows, columns] = [space.along.count, space.across.count];
  // Of a coefficient the readings tell a share; the square of its estimate is that share of its variance in the mean.
  const size = mean.map((value, i) => {
    const told = 1 - left[i]! / before[i]!;
    return (WIDENING * value * value) / (told + TOLD_LITTLE) + left[i]!;
  });
  const kernel = [0, 1, 2].map((distance) => Math.exp(-0.5 * (distance / SHARING) ** 2));
  return size.map((_, at) => {
    const [i, j] = [Math.floor(at / columns), at % columns];
    let sum = 0;
    let total = 0;
    for (let p = Math.max(0, i - 2); p <= Math.min(rows - 1, i + 2); p++) {
      for (let q = Math.max(0, j - 2); q <= Math.min(columns - 1, j + 2); q++) {
        const share = kernel[Math.abs(p - i)]! * kernel[Math.abs(q - j)]!;
        sum += share * size[p * columns + q]!;
        total += share;
      }
    }
    return sum / total;
  });
}
