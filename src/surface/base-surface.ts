import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { cholesky, logDeterminant, rowDot } from '../numerics/cholesky.ts';
import { secondDifferencePenalty } from '../numerics/difference-penalty.ts';
import { newtonMinimum } from '../numerics/minimise.ts';
import { dot } from '../numerics/quadratic-form.ts';
import {
  blockTimes,
  columnSquares,
  whitened,
  whitenedVector,
  type ColumnBlock,
} from '../numerics/whitening.ts';
import { knotSpacing } from '../numerics/uniform-b-spline.ts';
import { coefficientCount, designRow, type SparseRow, type TensorBasis } from './tensor-basis.ts';
import { warped, warpRate, type Warp } from './warp.ts';

/** Where the base surface lives: a tensor basis in the warped coordinate along and in u across. */
export interface BaseSpace {
  readonly warp: Warp;
  readonly basis: TensorBasis;
}

const COUNT_ALONG = 20;
const COUNT_ACROSS = 9;

export function baseSpace(warp: Warp, fromZMm: number, toZMm: number): BaseSpace {
  return {
    warp,
    basis: {
      along: { from: warped(warp, fromZMm), to: warped(warp, toZMm), count: COUNT_ALONG },
      across: { from: -1, to: 1, count: COUNT_ACROSS },
    },
  };
}

/** Row of the base surface at a place, or of its first derivative by z or u. */
export function baseRow({ warp, basis }: BaseSpace, zMm: number, u: number, dz = 0, du = 0): SparseRow {
  const row = designRow(basis, warped(warp, zMm), u, dz, du);
  if (dz === 1) {
    const rate = warpRate(warp, zMm);
    for (let k = 0; k < row.weight.length; k++) row.weight[k]! *= rate;
  }
  return row;
}

/** Prior of the base surface's coefficients: normal about a constant with this covariance. */
export interface BasePrior {
  readonly meanMm: number;
  /** n x n, row by row. */
  readonly covariance: Float64Array;
}

/** Thickness that is expected before anything is read, and how weakly. Common practice, no source. */
const PRIOR_MEAN_MM = 0.3;
/** Precision of what the penalties leave free, 1/mm2: a constant then has a standard deviation of about 0.35 mm. */
const FREE_PRECISION = 0.05;
/**
 * Logarithms of the two roughness precisions (1/mm2) that invented and common blades need, and how far a reed may
 * leave them. Found on blades with a known truth; the evidence of a full map outweighs them.
 */
const LOG_PRECISION = [6, 1.6] as const;
const LOG_PRECISION_SD = 2;
const LOG_BOUND = 16;
const GRADIENT_TOLERANCE = 1e-2;

/** One reading for the choice of the prior: its design row, its value, and the variance of its noise. */
export interface BaseReading {
  readonly row: SparseRow;
  readonly valueMm: number;
  readonly variance: number;
}

interface Eigen {
  readonly values: readonly number[];
  readonly vectors: Matrix;
}

const eigenBySize = new Map<number, Eigen>();

function eigen(k: number): Eigen {
  const known = eigenBySize.get(k);
  if (known) return known;
  const matrix = Matrix.from1DArray(k, k, secondDifferencePenalty(k));
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(matrix, {
    assumeSymmetric: true,
  });
  const found = {
    values: realEigenvalues.map((value) => (value < 1e-9 ? 0 : value)),
    vectors: eigenvectorMatrix,
  };
  eigenBySize.set(k, found);
  return found;
}

const tensorVectors = new Map<string, Float64Array>();

/** Eigenvectors of both penalties at once, column (i, j) at i * across + j; depends on the counts alone. */
function tensorEigenvectors({ along, across }: TensorBasis): Float64Array {
  const key = `${along.count} ${across.count}`;
  const known = tensorVectors.get(key);
  if (known) return known;
  const [a, b] = [eigen(along.count).vectors, eigen(across.count).vectors];
  const n = along.count * across.count;
  const vectors = new Float64Array(n * n);
  for (let i = 0; i < along.count; i++)
    for (let j = 0; j < across.count; j++)
      for (let p = 0; p < along.count; p++)
        for (let q = 0; q < across.count; q++)
          vectors[(i * across.count + j) * n + p * across.count + q] = a.get(i, p) * b.get(j, q);
  tensorVectors.set(key, vectors);
  return vectors;
}

/** Logarithms of the roughness precisions along and across, and how little the readings believe them. */
export interface Roughness {
  readonly logs: readonly [number, number];
  /** Negative log evidence: lower is likelier, also between spaces. */
  readonly cost: number;
}

/**
 * The roughness that the readings make likeliest (restricted maximum likelihood with known noise, and a weak
 * preference where few readings leave it open). Works in the eigenbasis of the penalties, so that one evaluation costs
 * no more than a Cholesky factor of the readings' covariance.
 *
 * Source: Wood 2011, doi 10.1111/j.1467-9868.2010.00749.x, for the likelihood.
 */
export function chooseRoughness({ basis }: BaseSpace, readings: readonly BaseReading[]): Roughness {
  const n = coefficientCount(basis);
  const rotated = rotate(readings, tensorEigenvectors(basis), n);
  const evidence = (logs: readonly [number, number]) => negativeEvidence(basis, readings, rotated, logs);
  const { x, value } = newtonMinimum(evidence, LOG_PRECISION, LOG_BOUND, GRADIENT_TOLERANCE);
  return { logs: x, cost: value };
}

export function basePrior(space: BaseSpace, { logs }: Pick<Roughness, 'logs'>): BasePrior {
  const { basis } = space;
  const spread = variances(basis, logs);
  const covariance = covarianceFrom(tensorEigenvectors(basis), spread, coefficientCount(basis));
  addUnseenShape(covariance, space);
  return { meanMm: PRIOR_MEAN_MM, covariance };
}

/**
 * Shape that the stations cannot see and that is alike along the whole blade, so that it does not average out over a
 * zone: the profile between the stations, and the rails beyond the outermost ones. One standard deviation of a
 * coefficient; a sixth of the outermost one shows at the edge. Tuned on blades with a known truth.
 */
const BETWEEN_SD_MM = 0.025;
const RIM_SD_MM = 0.13;
/** The tip is thin, and strays in the same proportion. */
const TIP_SHARE = 0.3;
/** What is unseen at one side is mostly so at the other: blades are scraped alike on both. Common practice, no source. */
const MIRROR_CORRELATION = 0.8;
/**
 * How the ridge bends into the heart between two rows of stations, alike across the blade: one standard deviation of a
 * coefficient, and where among the coefficients behind the ridge. Tuned on blades with a known truth.
 */
const BEND_SD_MM = 0.01;
const BEND_BEHIND = 2;
const BEND_REACH = 2;

function addUnseenShape(covariance: Float64Array, space: BaseSpace): void {
  const { along, across } = space.basis;
  const ridge = (warped(space.warp, space.warp.ridgeMm) - along.from) / knotSpacing(along);
  // Coefficient i acts about knot i - 1; z rises towards the tip.
  const behind = Array.from({ length: along.count }, (_, i) => ridge - (i - 1));
  addAlikeAlong(
    covariance,
    behind.map((x) => TIP_SHARE + ((1 - TIP_SHARE) * (1 + x / Math.sqrt(1 + x * x))) / 2),
    across.count,
  );
  addAlikeAcross(
    covariance,
    behind.map((x) => BEND_SD_MM * bump((x - BEND_BEHIND) / BEND_REACH)),
    across.count,
  );
}

/** A bump of height 1 and a width of about 1; only + - x and /. */
function bump(x: number): number {
  const wide = 1 + (x * x) / 4;
  return 1 / (wide * wide);
}

function addAlikeAlong(covariance: Float64Array, shares: readonly number[], columns: number): void {
  const n = shares.length * columns;
  for (let j = 0; j < columns; j++) {
    const facing = columns - 1 - j;
    const sd = j === 0 || facing === 0 ? RIM_SD_MM : BETWEEN_SD_MM;
    shares.forEach((a, i) =>
      shares.forEach((b, p) => {
        const [row, column] = [(i * columns + j) * n, p * columns];
        covariance[row + column + j]! += sd * sd * a * b;
        if (facing !== j) covariance[row + column + facing]! += MIRROR_CORRELATION * sd * sd * a * b;
      }),
    );
  }
}

function addAlikeAcross(covariance: Float64Array, sds: readonly number[], columns: number): void {
  const n = sds.length * columns;
  sds.forEach((sd, i) => {
    for (let j = 0; j < columns; j++)
      for (let q = 0; q < columns; q++) covariance[(i * columns + j) * n + i * columns + q]! += sd * sd;
  });
}

/** The prior before any reading: the usual roughness of a blade. */
export function usualBasePrior(space: BaseSpace): BasePrior {
  return basePrior(space, { logs: LOG_PRECISION });
}

function rotate(readings: readonly BaseReading[], vectors: Float64Array, n: number): ColumnBlock {
  const values = new Float64Array(readings.length * n);
  readings.forEach(({ row: { index, weight } }, i) => {
    for (let k = 0; k < index.length; k++) {
      const from = index[k]! * n;
      for (let m = 0; m < n; m++) values[i * n + m]! += weight[k]! * vectors[from + m]!;
    }
  });
  return { values, columns: n, firstRow: 0, offset: 0 };
}

function precisions({ along, across }: TensorBasis, [logAlong, logAcross]: readonly [number, number]) {
  const a = eigen(along.count).values.map((value) => value * Math.exp(logAlong));
  const b = eigen(across.count).values.map((value) => value * Math.exp(logAcross));
  return { a, b };
}

function variances(basis: TensorBasis, logs: readonly [number, number]): Float64Array {
  const { a, b } = precisions(basis, logs);
  return Float64Array.from(a.flatMap((ai) => b.map((bj) => 1 / (ai + bj + FREE_PRECISION))));
}

function covarianceFrom(vectors: Float64Array, spread: Float64Array, n: number): Float64Array {
  const covariance = new Float64Array(n * n);
  const scaled = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let m = 0; m < n; m++) scaled[i * n + m] = vectors[i * n + m]! * spread[m]!;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const sum = rowDot(scaled, i * n, vectors, j * n, n);
      covariance[i * n + j] = sum;
      covariance[j * n + i] = sum;
    }
  }
  return covariance;
}

function negativeEvidence(
  basis: TensorBasis,
  readings: readonly BaseReading[],
  rotated: ColumnBlock,
  logs: readonly [number, number],
) {
  const size = readings.length;
  const n = rotated.columns;
  const { a, b } = precisions(basis, logs);
  const spread = variances(basis, logs);
  const scaled = new Float64Array(size * n);
  for (let i = 0; i < size; i++)
    for (let m = 0; m < n; m++) scaled[i * n + m] = rotated.values[i * n + m]! * spread[m]!;
  const k = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) k[i * size + j] = rowDot(scaled, i * n, rotated.values, j * n, n);
    k[i * size + i]! += readings[i]!.variance;
  }
  const factor = cholesky(k, size);
  const white = whitenedVector(
    factor,
    size,
    readings.map(({ valueMm }) => valueMm - PRIOR_MEAN_MM),
  );
  const slopes = evidenceSlopes(whitened(factor, size, rotated), white, spread, a, b);
  const away = logs.map((log, i) => (log - LOG_PRECISION[i]!) / LOG_PRECISION_SD);
  return {
    value: (dot(white, white) + logDeterminant(factor, size) + dot(away, away)) / 2,
    gradient: [slopes[0] + away[0]! / LOG_PRECISION_SD, slopes[1] + away[1]! / LOG_PRECISION_SD] as const,
  };
}

/** Derivatives of (r' K^-1 r + ln|K|) / 2 by the two log precisions, from the whitened rows and deviation. */
function evidenceSlopes(
  rows: ColumnBlock,
  white: Float64Array,
  spread: Float64Array,
  a: readonly number[],
  b: readonly number[],
): [number, number] {
  const pull = blockTimes(rows, white);
  const information = columnSquares(rows);
  let along = 0;
  let across = 0;
  for (let m = 0; m < spread.length; m++) {
    const change = spread[m]! * spread[m]! * (pull[m]! * pull[m]! - information[m]!);
    along += (change * a[Math.floor(m / b.length)]!) / 2;
    across += (change * b[m % b.length]!) / 2;
  }
  return [along, across];
}
