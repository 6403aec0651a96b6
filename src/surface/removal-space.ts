import { designRow, type SparseRow, type TensorBasis } from './tensor-basis.ts';

/** Where what one pass took off lives: a coarse tensor basis on the cane, plain z along and u across. */
export type RemovalSpace = TensorBasis;

/** Longest knot spacing along, mm: a stroke patch is 1.5 to 3 mm long. Common practice, no source. */
const SPACING_MM = 1.8;
const COUNT_ACROSS = 7;

export function removalSpace(fromZMm: number, toZMm: number): RemovalSpace {
  return {
    along: { from: fromZMm, to: toZMm, count: Math.max(4, Math.ceil((toZMm - fromZMm) / SPACING_MM) + 3) },
    across: { from: -1, to: 1, count: COUNT_ACROSS },
  };
}

export function removalRow(space: RemovalSpace, zMm: number, u: number, dz = 0, du = 0): SparseRow {
  return designRow(space, zMm, u, dz, du);
}

/** Standard deviation that a coefficient has before the readings speak, mm. Tuned on blades with a known truth. */
export const FIRST_REMOVAL_SD_MM = 0.007;
/** Knots over which neighbouring coefficients share their size. */
const SHARING = 0.6;
/** How strongly an estimated removal widens its own prior, so that a real scrape is not shrunk. */
const WIDENING = 4;

/**
 * Prior variances for another round: each coefficient's own square and doubt, averaged with its neighbours'. Places
 * with no reading keep the variance they had; places where cane went get a wide one.
 */
export function widenedVariances(
  space: RemovalSpace,
  mean: Float64Array,
  variance: Float64Array,
): Float64Array {
  const [rows, columns] = [space.along.count, space.across.count];
  const size = mean.map((value, i) => WIDENING * value * value + variance[i]!);
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
