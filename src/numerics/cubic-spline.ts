import { Matrix, solve } from 'ml-matrix';

/** What a cubic spline does at its ends: one cubic over the first two and last two intervals, or no curvature. */
export type SplineEnds = 'not-a-knot' | 'natural';

/**
 * Interpolating cubic splines on fixed knots as linear maps of the values: `secondDerivatives` (n x n, row by row)
 * times the values gives the second derivatives at the knots.
 */
export interface SplineSpace {
  readonly knots: readonly number[];
  readonly secondDerivatives: Float64Array;
}

/**
 * Source: de Boor 1978, A Practical Guide to Splines, chapter IV. With three knots not-a-knot is the parabola, with two
 * the straight line.
 *
 * @param knots 2 or more, strictly rising.
 * @throws RangeError otherwise.
 */
export function splineSpace(knots: readonly number[], ends: SplineEnds): SplineSpace {
  const n = knots.length;
  if (n < 2) throw new RangeError(`knots: must be 2 or more, got ${n}`);
  knots.forEach((knot, i) => {
    if (i > 0 && !(knot > knots[i - 1]!))
      throw new RangeError(`knots[${i}]: must be above the one before, got ${knot}`);
  });
  if (n === 2) return { knots, secondDerivatives: new Float64Array(4) };
  const left = Matrix.zeros(n, n);
  const right = Matrix.zeros(n, n);
  for (let i = 1; i + 1 < n; i++) {
    const [before, after] = [knots[i]! - knots[i - 1]!, knots[i + 1]! - knots[i]!];
    left.set(i, i - 1, before);
    left.set(i, i, 2 * (before + after));
    left.set(i, i + 1, after);
    right.set(i, i - 1, 6 / before);
    right.set(i, i, -6 / before - 6 / after);
    right.set(i, i + 1, 6 / after);
  }
  for (const [row, step] of [[0, 1] as const, [n - 1, -1] as const])
    endCondition(left, knots, row, step, ends);
  return { knots, secondDerivatives: Float64Array.from(solve(left, right).to1DArray()) };
}

function endCondition(
  left: Matrix,
  knots: readonly number[],
  row: number,
  step: 1 | -1,
  ends: SplineEnds,
): void {
  if (ends === 'natural') {
    left.set(row, row, 1);
    return;
  }
  const outer = Math.abs(knots[row + step]! - knots[row]!);
  const inner = Math.abs(knots[row + 2 * step]! - knots[row + step]!);
  if (knots.length === 3) {
    // One parabola: the second derivative is the same everywhere.
    left.set(row, row, 1);
    left.set(row, row + step, -1);
    return;
  }
  left.set(row, row, 1 / outer);
  left.set(row, row + step, -1 / outer - 1 / inner);
  left.set(row, row + 2 * step, 1 / inner);
}

/**
 * Weights of the values in the spline at x, or in its first or second derivative. Beyond the end knots the outermost
 * cubics go on.
 */
export function splineWeights(
  { knots, secondDerivatives }: SplineSpace,
  x: number,
  derivative = 0,
): Float64Array {
  const n = knots.length;
  let i = 0;
  while (i + 2 < n && x > knots[i + 1]!) i++;
  const h = knots[i + 1]! - knots[i]!;
  const [a, b] = [(knots[i + 1]! - x) / h, (x - knots[i]!) / h];
  const [value, curve] = [
    [
      [a, b],
      [((a * a * a - a) * h * h) / 6, ((b * b * b - b) * h * h) / 6],
    ],
    [
      [-1 / h, 1 / h],
      [(-(3 * a * a - 1) * h) / 6, ((3 * b * b - 1) * h) / 6],
    ],
    [
      [0, 0],
      [a, b],
    ],
  ][derivative]!;
  const weights = new Float64Array(n);
  weights[i]! += value![0]!;
  weights[i + 1]! += value![1]!;
  for (let j = 0; j < n; j++) {
    weights[j]! +=
      curve![0]! * secondDerivatives[i * n + j]! + curve![1]! * secondDerivatives[(i + 1) * n + j]!;
  }
  return weights;
}
