import { cholesky, inverseFromCholesky, solveCholesky } from '../numerics/cholesky.ts';
import { squareProduct } from '../numerics/dense.ts';
import { dot, multiply } from '../numerics/quadratic-form.ts';
import { sparseDot, sparseTimes, type SparseWeights } from '../numerics/sparse-row.ts';
import { baseCovariance, COMMON_PARTS } from './base-covariance.ts';
import { readingsCovariance, surprisesOf } from './expect.ts';
import { stationsIn, type Stations } from './interpolation.ts';
import type { Predictive } from './predictive.ts';
import { toldBy, type ReadReed } from './read-reed.ts';

/** How a reed's readings go with what its maker's other reeds lead to expect. */
export interface Belonging {
  /** Standard deviations above what reeds of the family reach. */
  readonly sds: number;
  readonly isOutside: boolean;
}

/**
 * One reed of the family in 12 lies further out by F; of invented makers one in 40, since covariances are wide rather than
 * narrow. Tuned on invented makers.
 */
export const OUTSIDE_SDS = 1.4;
/** One of the family in 200: where a slip among the readings may be all that makes them look strange. */
export const STRANGE_SDS = 2.576;
/**
 * How much further other makers' reeds stray from a maker's than is supposed of the maker's own, in variance. Tuned on
 * invented makers: from 8 to 32 it tells nearly the same.
 */
const OTHERS = 8;

/** How other makers' reeds stray from the family, alike on both blades: covariance of n places, n x n, row by row, mm2. */
export function othersMm2(
  { stations, meanMm, leans }: Pick<Predictive, 'stations' | 'meanMm' | 'leans'>,
  rows: readonly SparseWeights[],
): Float64Array {
  const [n, m] = [rows.length, stations.length];
  const atStations = baseCovariance(COMMON_PARTS, stations, meanMm, leans);
  const covariance = new Float64Array(n * n);
  rows.forEach((row, i) => {
    const toStations = sparseTimes(row, atStations, m);
    rows.forEach((other, j) => (covariance[i * n + j] = OTHERS * sparseDot(other, toStations)));
  });
  return covariance;
}

/**
 * How far n readings lie from what was expected, towards where other makers' reeds lie: the logarithm of the ratio of both
 * likelihoods, r'(S^-1 - (S + W)^-1) r, by what it is in the family. Noise and what strays in the family anyhow weigh little
 * in it, so that many readings do not hide what a few tell.
 *
 * Source: Neyman & Pearson 1933, doi 10.1098/rsta.1933.0009, for the ratio; Satterthwaite 1946, doi 10.2307/3002019, for a sum
 * of weighted squares as one of so many, both from memory. F, not chi-square, since S is known from so many reeds.
 *
 * @param surpriseMm Read less expected.
 * @param covariance S, n x n, its lower triangle.
 * @param others W, n x n.
 * @param dof Degrees of freedom that S rests on.
 * @returns Standard deviations of a normal as far out.
 */
export function strangeness(
  surpriseMm: Float64Array,
  covariance: Float64Array,
  others: Float64Array,
  dof: number,
): number {
  const n = surpriseMm.length;
  const far = inverseFromCholesky(
    cholesky(
      covariance.map((value, k) => value + others[k]!),
      n,
    ),
    n,
  );
  const shares = squareProduct(far, mirrored(covariance, n), n);
  let [weights, squares] = [n, n];
  for (let i = 0; i < n; i++) {
    weights -= shares[i * (n + 1)]!;
    squares -= 2 * shares[i * (n + 1)]!;
    for (let j = 0; j < n; j++) squares += shares[i * n + j]! * shares[j * n + i]!;
  }
  const near = dot(surpriseMm, solveCholesky(cholesky(covariance, n), n, surpriseMm));
  const ratio = (near - dot(surpriseMm, multiply(far, n, surpriseMm))) / weights;
  return normalOfF(ratio, weights ** 2 / squares, dof);
}

function mirrored(lower: Float64Array, n: number): Float64Array {
  return lower.map((value, k) => {
    const [i, j] = [Math.floor(k / n), k % n];
    return j > i ? lower[j * n + i]! : value;
  });
}

/** Whether a reed belongs to a family. */
export function belongingOf(
  reed: ReadReed,
  predictive: Predictive,
  stations: Stations = stationsIn(predictive.frame, predictive.stations),
): Belonging {
  const told = toldBy(reed, stations);
  const surprise = surprisesOf(told, predictive.meanMm, thicknessesOf(reed));
  const others = othersMm2(predictive, told.rows);
  const sds = strangeness(surprise, readingsCovariance(told, predictive), others, predictive.dof);
  return { sds, isOutside: sds > OUTSIDE_SDS };
}

/** Squared distance of a reed's readings from what was expected, by their number: about 1 for a reed of the family. */
export function strayedOf(reed: ReadReed, predictive: Predictive, stations: Stations): number {
  const told = toldBy(reed, stations);
  const surprise = surprisesOf(told, predictive.meanMm, thicknessesOf(reed));
  const n = surprise.length;
  return dot(surprise, solveCholesky(cholesky(readingsCovariance(told, predictive), n), n, surprise)) / n;
}

const thicknessesOf = ({ readings }: ReadReed) =>
  Float64Array.from(readings, ({ thicknessMm }) => thicknessMm);

/**
 * The normal value that is exceeded as often as F with a and b degrees of freedom.
 *
 * Source: Paulson 1942, doi 10.1214/aoms/1177731608, from memory.
 */
export function normalOfF(f: number, a: number, b: number): number {
  const root = Math.cbrt(f);
  return (
    (root * (1 - 2 / (9 * b)) - (1 - 2 / (9 * a))) / Math.sqrt(2 / (9 * a) + (root * root * 2) / (9 * b))
  );
}
