import {
  bandedCholesky,
  bandedLogDeterminant,
  bandedSolve,
  bandedTrace,
  bandOf,
  bandOfInverse,
  type Banded,
} from '../numerics/banded-cholesky.ts';
import { secondDifferenceEigenvalues, sumOfSquaredDifferences } from '../numerics/difference-penalty.ts';
import { NULL_DIMENSION, type Smoothing, type SurfaceProblem } from './surface-problem.ts';
import { rowTimes } from './tensor-basis.ts';

/** The restricted likelihood of a problem as a function of its smoothing. */
export interface RemlScore {
  /** Negative restricted log-likelihood. */
  readonly value: (smoothing: Smoothing) => number;
  /** The same with its gradient by the logarithms of the smoothing parameters. */
  readonly withGradient: (smoothing: Smoothing) => {
    readonly value: number;
    readonly gradient: readonly [along: number, across: number];
  };
}

/**
 * Prepares the score. Local basis functions make every matrix banded, so that one evaluation costs n reach^2.
 *
 * Source: Wood 2011, doi 10.1111/j.1467-9868.2010.00749.x, for the score.
 *
 * @param knownVariance Variance of a value of weight 1, where it is known.
 */
export function remlScore(problem: SurfaceProblem, knownVariance: number | undefined): RemlScore {
  const { basis, k } = problem;
  const reach = 3 * basis.across.count + 3;
  const normal = bandOf(problem.normal, k, Math.min(reach, k - 1));
  const along = bandOf(problem.penalties.along, k, normal.reach);
  const across = bandOf(problem.penalties.across, k, normal.reach);
  const at = (smoothing: Smoothing) =>
    scored(problem, factored(normal, along, across, smoothing), smoothing, knownVariance);
  return {
    value: (smoothing) => at(smoothing).value,
    withGradient: (smoothing) => {
      const { value, factor, phi, rough, penalty } = at(smoothing);
      const inverse = bandOfInverse(factor);
      const slope = (lambda: number, roughness: number, band: Banded, byLog: number) =>
        (lambda * (roughness / phi + bandedTrace(inverse, band)) - byLog) / 2;
      return {
        value,
        gradient: [
          slope(smoothing.along, rough.along, along, penalty.byAlong),
          slope(smoothing.across, rough.across, across, penalty.byAcross),
        ],
      };
    },
  };
}

function factored(normal: Banded, along: Banded, across: Banded, smoothing: Smoothing): Banded {
  const values = new Float64Array(normal.values.length);
  for (let i = 0; i < values.length; i++) {
    values[i] = normal.values[i]! + smoothing.along * along.values[i]! + smoothing.across * across.values[i]!;
  }
  return bandedCholesky({ ...normal, values });
}

function scored(
  problem: SurfaceProblem,
  factor: Banded,
  smoothing: Smoothing,
  knownVariance: number | undefined,
) {
  const { n, right, basis, rows, t, w, sumLogW } = problem;
  const theta = bandedSolve(factor, right);
  const rough = sumOfSquaredDifferences(theta, basis.along.count, basis.across.count);
  let rss = 0;
  for (let i = 0; i < n; i++) rss += w[i]! * (t[i]! - rowTimes(rows[i]!, theta)) ** 2;
  const fit = rss + smoothing.along * rough.along + smoothing.across * rough.across;
  const phi = knownVariance ?? fit / (n - NULL_DIMENSION);
  const penalty = logPenalty(problem, smoothing);
  const value =
    fit / (2 * phi) +
    ((n - NULL_DIMENSION) / 2) * Math.log(2 * Math.PI * phi) +
    (bandedLogDeterminant(factor) - penalty.value) / 2 -
    sumLogW / 2;
  return { value, factor, phi, rough, penalty };
}

/** Logarithm of the product of the penalty's non-zero eigenvalues, and its derivatives by the logs of the smoothing. */
function logPenalty({ basis }: SurfaceProblem, { along, across }: Smoothing) {
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
