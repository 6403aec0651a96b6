import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { secondDifferencePenalty } from '../numerics/difference-penalty.ts';
import type { TensorBasis } from './tensor-basis.ts';

/** Precision of what the penalties leave free, 1/mm2: a constant then has a standard deviation of about 0.35 mm. */
const FREE_PRECISION = 0.05;

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
export function tensorEigenvectors({ along, across }: TensorBasis): Float64Array {
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

/** The penalties' eigenvalues, each times its precision, along and across. */
export function penaltyPrecisions(
  { along, across }: TensorBasis,
  [logAlong, logAcross]: readonly [number, number],
) {
  const a = eigen(along.count).values.map((value) => value * Math.exp(logAlong));
  const b = eigen(across.count).values.map((value) => value * Math.exp(logAcross));
  return { a, b };
}

/** Prior variances along the eigenvectors, across running faster. */
export function priorVariances(basis: TensorBasis, logs: readonly [number, number]): Float64Array {
  const { a, b } = penaltyPrecisions(basis, logs);
  return Float64Array.from(a.flatMap((ai) => b.map((bj) => 1 / (ai + bj + FREE_PRECISION))));
}

/** Sum over the eigenvectors of both penalties of the spread of each: first across, then along. */
export function smoothCovariance({ along, across }: TensorBasis, spread: Float64Array): Float64Array {
  const [rows, columns] = [along.count, across.count];
  const n = rows * columns;
  const covariance = new Float64Array(n * n);
  const [a, b] = [eigen(rows).vectors, eigen(columns).vectors];
  for (let k = 0; k < rows; k++) {
    const lines = spreadAcross(b, spread.subarray(k * columns, (k + 1) * columns));
    for (let i = 0; i < rows; i++)
      for (let p = 0; p <= i; p++) {
        const weight = a.get(i, k) * a.get(p, k);
        for (let j = 0; j < columns; j++) {
          const to = (i * columns + j) * n + p * columns;
          for (let q = 0; q < columns; q++) covariance[to + q]! += weight * lines[j * columns + q]!;
        }
      }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) covariance[j * n + i] = covariance[i * n + j]!;
  return covariance;
}

function spreadAcross(vectors: Matrix, spread: Float64Array): Float64Array {
  const n = spread.length;
  const lines = new Float64Array(n * n);
  for (let j = 0; j < n; j++)
    for (let q = 0; q < n; q++)
      for (let l = 0; l < n; l++) lines[j * n + q]! += vectors.get(j, l) * vectors.get(q, l) * spread[l]!;
  return lines;
}
