import {
  bandedCholesky,
  bandedLogDeterminant,
  bandedSolve,
  bandedTrace,
  bandedInverse,
  bandOf,
  type Banded,
} from '../numerics/banded-cholesky.ts';
import { secondDifferenceEigenvalues, sumOfSquaredDifferences } from '../numerics/difference-penalty.ts';
import { sparseDot } from '../numerics/sparse-row.ts';
import { NULL_DIMENSION, type Smoothing, type SurfaceProblem } from './surface-problem.ts';

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
  const { k } = problem;
  const system = bandedSystem(problem);
  const { along, across } = system;
  // Used again for each evaluation: making them would take as long as filling them.
  const scratch = new Float64Array(system.normal.values.length);
  const inverse = new Float64Array(k * k);
  const at = (smoothing: Smoothing) =>
    scored(problem, factored(system, smoothing, scratch), smoothing, knownVariance);
  return {
    value: (smoothing) => at(smoothing).value,
    withGradient: (smoothing) => {
      const { value, factor, phi, rough, penalty } = at(smoothing);
      bandedInverse(factor, factor.reach, inverse);
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

/** B'WB and the two penalties, of one band. */
interface BandedSystem {
  readonly normal: Banded;
  readonly along: Banded;
  readonly across: Banded;
}

export function bandedSystem({ basis, k, normal, penalties }: SurfaceProblem): BandedSystem {
  const reach = Math.min(3 * basis.across.count + 3, k - 1);
  const band = (matrix: Float64Array) => bandOf(matrix, k, reach);
  return { normal: band(normal), along: band(penalties.along), across: band(penalties.across) };
}

/**
 * Factor of B'WB with the weighted penalties.
 *
 * @param values Taken for the factor.
 * @throws RangeError where data and smoothing leave the surface open.
 */
export function factored(
  { normal, along, across }: BandedSystem,
  smoothing: Smoothing,
  values = new Float64Array(normal.values.length),
): Banded {
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
  for (let i = 0; i < n; i++) rss += w[i]! * (t[i]! - sparseDot(rows[i]!, theta)) ** 2;
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
