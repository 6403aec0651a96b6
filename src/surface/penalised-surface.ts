import { bandedInverse, bandedSolve } from '../numerics/banded-cholesky.ts';
import { lowestMinimum, scanForStarts } from '../numerics/minimise.ts';
import { sparseBilinear, sparseDot } from '../numerics/sparse-row.ts';
import { bandedSystem, factored, remlScore } from './reml-score.ts';
import { pose, type Smoothing, type SurfaceData, type SurfaceProblem } from './surface-problem.ts';
import type { TensorBasis } from './tensor-basis.ts';

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
  /** Leverage of each value. */
  readonly leverage: Float64Array;
  readonly fitted: Float64Array;
}

/** Logarithms of the smoothing stay within this bound. */
const LOG_BOUND = 16;
const REML_TOLERANCE = 1e-8;
const REML_SCAN = [-12, -4, 4, 12];

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
  const problem = pose(data, basis);
  return finish(problem, smoothing, remlScore(problem, knownVariance).value(smoothing), knownVariance);
}

function finish(
  problem: SurfaceProblem,
  smoothing: Smoothing,
  reml: number,
  knownVariance: number | undefined,
): SurfaceFit {
  const { basis, n, k, rows, t, w, right } = problem;
  const factor = factored(bandedSystem(problem), smoothing);
  const theta = bandedSolve(factor, right);
  const inverse = bandedInverse(factor);
  const fitted = new Float64Array(n);
  const leverage = new Float64Array(n);
  let rss = 0;
  let edf = 0;
  for (let i = 0; i < n; i++) {
    fitted[i] = sparseDot(rows[i]!, theta);
    leverage[i] = w[i]! * sparseBilinear(rows[i]!, inverse, k, rows[i]!);
    rss += w[i]! * (t[i]! - fitted[i]!) ** 2;
    edf += leverage[i]!;
  }
  return {
    basis,
    smoothing,
    theta,
    unscaledCovariance: inverse,
    noiseVariance: knownVariance ?? rss / (n - edf),
    edf,
    rss,
    reml,
    leverage,
    fitted,
  };
}

const fromLogs = ([along, across]: readonly [number, number]): Smoothing => ({
  along: Math.exp(along),
  across: Math.exp(across),
});

/**
 * The surface with both smoothing parameters chosen by restricted maximum likelihood, from several starts.
 *
 * Source: Wood 2011, doi 10.1111/j.1467-9868.2010.00749.x.
 *
 * @param knownVariance Variance of a value of weight 1, where the gauge's own noise is known.
 */
export function fitSurfaceByReml(data: SurfaceData, basis: TensorBasis, knownVariance?: number): SurfaceFit {
  const problem = pose(data, basis);
  const score = remlScore(problem, knownVariance);
  const starts = scanForStarts((logs) => score.value(fromLogs(logs)), REML_SCAN);
  const { x, value } = lowestMinimum(
    (logs) => score.withGradient(fromLogs(logs)),
    starts,
    LOG_BOUND,
    REML_TOLERANCE,
  );
  return finish(problem, fromLogs(x), value, knownVariance);
}
