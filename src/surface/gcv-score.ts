import { cholesky, inverseFromCholesky, solveCholesky } from '../numerics/cholesky.ts';
import { dot, multiply } from '../numerics/quadratic-form.ts';
import type { Smoothing, SurfaceProblem } from './surface-problem.ts';

/** Solution at one smoothing, with what the scores need. */
function solve(problem: SurfaceProblem, { along, across }: Smoothing) {
  const { k, normal, right, penalties, sumTwt } = problem;
  const system = new Float64Array(k * k);
  for (let i = 0; i < system.length; i++) {
    system[i] = normal[i]! + along * penalties.along[i]! + across * penalties.across[i]!;
  }
  const factor = cholesky(system, k);
  const theta = solveCholesky(factor, k, right);
  const rss = Math.max(0, sumTwt - 2 * dot(theta, right) + dot(theta, multiply(normal, k, theta)));
  return { factor, theta, rss };
}

/** Logarithm of the generalised cross-validation score. */
export function gcvValue(problem: SurfaceProblem, smoothing: Smoothing): number {
  const { n, k, normal } = problem;
  const { factor, rss } = solve(problem, smoothing);
  return Math.log((n * rss) / (n - dot(inverseFromCholesky(factor, k), normal)) ** 2);
}

/** Logarithm of the GCV score and its gradient by the logs of the smoothing parameters. */
export function gcvScore(problem: SurfaceProblem, smoothing: Smoothing) {
  const { n, k, normal, right, penalties } = problem;
  const { factor, theta, rss } = solve(problem, smoothing);
  const inverse = inverseFromCholesky(factor, k);
  const free = n - dot(inverse, normal);
  const residualSide = multiply(normal, k, theta).map((value, i) => right[i]! - value);
  const slope = (penalty: Float64Array, lambda: number) => {
    const push = solveCholesky(factor, k, multiply(penalty, k, theta));
    const rssSlope = 2 * lambda * dot(residualSide, push);
    const edfSlope = -lambda * traceOfProduct(inverse, penalty, normal, k);
    return rssSlope / rss + (2 * edfSlope) / free;
  };
  return {
    value: Math.log((n * rss) / (free * free)),
    gradient: [slope(penalties.along, smoothing.along), slope(penalties.across, smoothing.across)] as const,
  };
}

/** tr(A^-1 P A^-1 N) for symmetric matrices. */
function traceOfProduct(
  inverse: Float64Array,
  penalty: Float64Array,
  normal: Float64Array,
  k: number,
): number {
  const left = product(inverse, penalty, k);
  const right = product(inverse, normal, k);
  let sum = 0;
  for (let i = 0; i < k; i++) for (let j = 0; j < k; j++) sum += left[i * k + j]! * right[j * k + i]!;
  return sum;
}

function product(a: Float64Array, b: Float64Array, k: number): Float64Array {
  const result = new Float64Array(k * k);
  for (let i = 0; i < k; i++) {
    for (let m = 0; m < k; m++) {
      const value = a[i * k + m]!;
      if (value === 0) continue;
      for (let j = 0; j < k; j++) result[i * k + j]! += value * b[m * k + j]!;
    }
  }
  return result;
}
