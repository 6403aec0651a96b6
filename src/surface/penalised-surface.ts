import { InputError } from '../../shared/errors.ts';
import { cholesky, inverseFromCholesky, logDeterminant, solveCholesky } from '../numerics/cholesky.ts';
import { secondDifferenceEigenvalues, tensorPenalties } from '../numerics/difference-penalty.ts';
import { lowestMinimum } from '../numerics/minimise.ts';
import { dot, multiply } from '../numerics/quadratic-form.ts';
import { coefficientCount, designRow, type SparseRow, type TensorBasis } from './tensor-basis.ts';

/** Values at places, each with a weight: the inverse of its variance up to a common factor. */
export interface SurfaceData {
  readonly y: ArrayLike<number>;
  readonly u: ArrayLike<number>;
  readonly t: ArrayLike<number>;
  readonly w?: ArrayLike<number>;
}

export interface Smoothing {
  readonly along: number;
  readonly across: number;
}

/** A penalised least-squares surface and everything that follows from its smoothing. */
export interface SurfaceFit {
  readonly basis: TensorBasis;
  readonly smoothing: Smoothing;
  readonly theta: Float64Array;
  /** Inverse of B'WB + penalties, row by row: the posterior covariance divided by the noise variance. */
  readonly unscaledCovariance: Float64Array;
  /** Noise variance that scales the covariance: the known one, or RSS / (n - edf). */
  readonly noiseVariance: number;
  readonly edf: number;
  readonly rss: number;
  /** Negative restricted log-likelihood. */
  readonly reml: number;
  /** Generalised cross-validation score. */
  readonly gcv: number;
  /** Leverage of each value. */
  readonly leverage: Float64Array;
  readonly fitted: Float64Array;
}

/** Dimension of the surfaces that no penalty touches: 1, y, u and y u. */
const NULL_DIMENSION = 4;
const LOG_BOUND = 16;
const REML_TOLERANCE = 1e-8;

/** What a fit needs that does not depend on the smoothing. */
interface Problem {
  readonly basis: TensorBasis;
  readonly n: number;
  readonly k: number;
  readonly rows: readonly SparseRow[];
  readonly t: Float64Array;
  readonly w: Float64Array;
  readonly normal: Float64Array;
  readonly right: Float64Array;
  readonly sumTwt: number;
  readonly sumLogW: number;
  readonly penalties: { along: Float64Array; across: Float64Array };
}

function pose(data: SurfaceData, basis: TensorBasis): Problem {
  const n = data.t.length;
  const k = coefficientCount(basis);
  if (n === 0) throw new InputError('data: must hold at least one value, got none');
  const rows = Array.from({ length: n }, (_, i) => designRow(basis, data.y[i]!, data.u[i]!));
  const t = Float64Array.from(data.t);
  const w = Float64Array.from({ length: n }, (_, i) => data.w?.[i] ?? 1);
  const normal = new Float64Array(k * k);
  const right = new Float64Array(k);
  let sumTwt = 0;
  let sumLogW = 0;
  rows.forEach(({ index, weight }, i) => {
    if (!(Number.isFinite(t[i]) && w[i]! > 0))
      throw new InputError(`data[${i}]: must be finite with weight above 0`);
    for (let a = 0; a < 16; a++) {
      const scaled = w[i]! * weight[a]!;
      right[index[a]!]! += scaled * t[i]!;
      for (let b = 0; b < 16; b++) normal[index[a]! * k + index[b]!]! += scaled * weight[b]!;
    }
    sumTwt += w[i]! * t[i]! * t[i]!;
    sumLogW += Math.log(w[i]!);
  });
  const penalties = tensorPenalties(basis.along.count, basis.across.count);
  return { basis, n, k, rows, t, w, normal, right, sumTwt, sumLogW, penalties };
}

/** Solution at one smoothing, with what the scores need. */
function solve(problem: Problem, { along, across }: Smoothing) {
  const { k, normal, right, penalties, sumTwt } = problem;
  const system = new Float64Array(k * k);
  for (let i = 0; i < system.length; i++) {
    system[i] = normal[i]! + along * penalties.along[i]! + across * penalties.across[i]!;
  }
  const factor = cholesky(system, k);
  const theta = solveCholesky(factor, k, right);
  const roughAlong = dot(theta, multiply(penalties.along, k, theta));
  const roughAcross = dot(theta, multiply(penalties.across, k, theta));
  const rss = Math.max(0, sumTwt - 2 * dot(theta, right) + dot(theta, multiply(normal, k, theta)));
  return { factor, theta, roughAlong, roughAcross, rss };
}

/** Logarithm of the product of the penalty's non-zero eigenvalues, and its derivatives by the logs of the smoothing. */
function logPenalty({ basis }: Problem, { along, across }: Smoothing) {
  let value = 0;
  let byAlong = 0;
  let byAcross = 0;
  for (const s of secondDifferenceEigenvalues(basis.along.count)) {
    for (const r of secondDifferenceEigenvalues(basis.across.count)) {
      const sum = along * s + across * r;
      if (sum === 0) continue;
      value += Math.log(sum);
      byAlong += (along * s) / sum;
      byAcross += (across * r) / sum;
    }
  }
  return { value, byAlong, byAcross };
}

function trace(inverse: Float64Array, penalty: Float64Array): number {
  return dot(inverse, penalty);
}

/** Negative restricted log-likelihood and its gradient by the logarithms of the smoothing parameters. */
function remlScore(problem: Problem, smoothing: Smoothing, knownVariance: number | undefined) {
  const solution = solve(problem, smoothing);
  const { n, k, sumLogW, penalties } = problem;
  const fit = solution.rss + smoothing.along * solution.roughAlong + smoothing.across * solution.roughAcross;
  const phi = knownVariance ?? fit / (n - NULL_DIMENSION);
  const penalty = logPenalty(problem, smoothing);
  const inverse = inverseFromCholesky(solution.factor, k);
  const value =
    fit / (2 * phi) +
    ((n - NULL_DIMENSION) / 2) * Math.log(2 * Math.PI * phi) +
    (logDeterminant(solution.factor, k) - penalty.value) / 2 -
    sumLogW / 2;
  const gradient = [
    (smoothing.along * (solution.roughAlong / phi + trace(inverse, penalties.along)) - penalty.byAlong) / 2,
    (smoothing.across * (solution.roughAcross / phi + trace(inverse, penalties.across)) - penalty.byAcross) /
      2,
  ] as const;
  return { value, gradient, solution, inverse };
}

/**
 * The surface for given smoothing parameters.
 *
 * Source: Eilers & Marx 1996, doi 10.1214/ss/1038425655; posterior covariance by Wahba 1983 and Silverman 1985.
 *
 * @param knownVariance Variance of a value of weight 1, where it is known.
 * @throws InputError for data that are not finite; RangeError where data and smoothing leave the surface open.
 */
export function fitSurface(
  data: SurfaceData,
  basis: TensorBasis,
  smoothing: Smoothing,
  knownVariance?: number,
): SurfaceFit {
  return finish(pose(data, basis), smoothing, knownVariance);
}

function finish(problem: Problem, smoothing: Smoothing, knownVariance: number | undefined): SurfaceFit {
  const { basis, n, k, rows, t, w, normal } = problem;
  const { value: reml, solution, inverse } = remlScore(problem, smoothing, knownVariance);
  const fitted = new Float64Array(n);
  const leverage = new Float64Array(n);
  let rss = 0;
  rows.forEach(({ index, weight }, i) => {
    let value = 0;
    let variance = 0;
    for (let a = 0; a < 16; a++) {
      value += weight[a]! * solution.theta[index[a]!]!;
      for (let b = 0; b < 16; b++) variance += weight[a]! * weight[b]! * inverse[index[a]! * k + index[b]!]!;
    }
    fitted[i] = value;
    leverage[i] = w[i]! * variance;
    rss += w[i]! * (t[i]! - value) ** 2;
  });
  const edf = dot(inverse, normal);
  return {
    basis,
    smoothing,
    theta: solution.theta,
    unscaledCovariance: inverse,
    noiseVariance: knownVariance ?? rss / (n - edf),
    edf,
    rss,
    reml,
    gcv: (n * rss) / (n - edf) ** 2,
    leverage,
    fitted,
  };
}

const fromLogs = ([along, across]: readonly [number, number]): Smoothing => ({
  along: Math.exp(along),
  across: Math.exp(across),
});

const STARTS = [
  [0, 0],
  [-8, -8],
  [4, -6],
  [-6, 4],
] as const;

/**
 * The surface with both smoothing parameters chosen by restricted maximum likelihood, from several starts.
 *
 * Source: Wood 2011, doi 10.1111/j.1467-9868.2010.00749.x.
 *
 * @param knownVariance Variance of a value of weight 1, where the gauge's own noise is known.
 */
export function fitSurfaceByReml(data: SurfaceData, basis: TensorBasis, knownVariance?: number): SurfaceFit {
  const problem = pose(data, basis);
  const { x } = lowestMinimum(
    (logs) => remlScore(problem, fromLogs(logs), knownVariance),
    STARTS,
    LOG_BOUND,
    REML_TOLERANCE,
  );
  return finish(problem, fromLogs(x), knownVariance);
}

/**
 * The surface with both smoothing parameters chosen by generalised cross-validation, an alternative that needs no
 * likelihood but has several minima more often.
 *
 * Source: Craven & Wahba 1979.
 */
export function fitSurfaceByGcv(data: SurfaceData, basis: TensorBasis): SurfaceFit {
  const problem = pose(data, basis);
  const score = (logs: readonly [number, number]) => gcvScore(problem, fromLogs(logs));
  const starts = GCV_SCAN.map((logs) => ({ logs, value: gcvValue(problem, fromLogs(logs)) }))
    .sort((a, b) => a.value - b.value)
    .slice(0, GCV_STARTS)
    .map(({ logs }) => logs);
  const { x } = lowestMinimum(score, starts, LOG_BOUND, GCV_TOLERANCE);
  return finish(problem, fromLogs(x), undefined);
}

const GCV_SCAN = [-12, -8, -4, 0, 4, 8, 12].flatMap((a) =>
  [-12, -8, -4, 0, 4, 8, 12].map((b) => [a, b] as const),
);
const GCV_STARTS = 2;
const GCV_TOLERANCE = 1e-6;

function gcvValue(problem: Problem, smoothing: Smoothing): number {
  const { n, k, normal } = problem;
  const { factor, rss } = solve(problem, smoothing);
  return Math.log((n * rss) / (n - dot(inverseFromCholesky(factor, k), normal)) ** 2);
}

/** Logarithm of the GCV score and its gradient by the logs of the smoothing parameters. */
function gcvScore(problem: Problem, smoothing: Smoothing) {
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
