import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/**
 * D'D for second differences of k coefficients, row by row: theta' D'D theta is the sum of their squares.
 *
 * Source: Eilers & Marx 1996, doi 10.1214/ss/1038425655.
 *
 * @param k 3 or more.
 */
export function secondDifferencePenalty(k: number): Float64Array {
  const penalty = new Float64Array(k * k);
  const stencil = [1, -2, 1];
  for (let row = 0; row + 2 < k; row++) {
    stencil.forEach((a, i) => stencil.forEach((b, j) => (penalty[(row + i) * k + row + j]! += a * b)));
  }
  return penalty;
}

const eigenvaluesBySize = new Map<number, readonly number[]>();

/** Eigenvalues of D'D in rising order; the first two are zero to the bit. */
export function secondDifferenceEigenvalues(k: number): readonly number[] {
  const known = eigenvaluesBySize.get(k);
  if (known) return known;
  const matrix = Matrix.from1DArray(k, k, secondDifferencePenalty(k));
  const { realEigenvalues } = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  const sorted = [...realEigenvalues].sort((a, b) => a - b).map((value, i) => (i < 2 ? 0 : value));
  eigenvaluesBySize.set(k, sorted);
  return sorted;
}

interface TensorPenalties {
  readonly along: Float64Array;
  readonly across: Float64Array;
}

const penaltiesBySize = new Map<string, TensorPenalties>();

/** Both margins' penalties on the coefficients of a tensor product, theta[i * kAcross + j]; made once for each size. */
export function tensorPenalties(kAlong: number, kAcross: number): TensorPenalties {
  const size = `${kAlong} x ${kAcross}`;
  const known = penaltiesBySize.get(size);
  if (known) return known;
  const n = kAlong * kAcross;
  const one = secondDifferencePenalty(kAlong);
  const other = secondDifferencePenalty(kAcross);
  const along = new Float64Array(n * n);
  const across = new Float64Array(n * n);
  for (let i = 0; i < kAlong; i++) {
    for (let j = 0; j < kAcross; j++) {
      const row = (i * kAcross + j) * n;
      for (let k = 0; k < kAlong; k++) along[row + k * kAcross + j] = one[i * kAlong + k]!;
      for (let k = 0; k < kAcross; k++) across[row + i * kAcross + k] = other[j * kAcross + k]!;
    }
  }
  const penalties = { along, across };
  penaltiesBySize.set(size, penalties);
  return penalties;
}

/** theta' P theta for both margins' penalties, from the differences themselves: no cancellation. */
export function sumOfSquaredDifferences(
  theta: Float64Array,
  kAlong: number,
  kAcross: number,
): { along: number; across: number } {
  let along = 0;
  let across = 0;
  for (let i = 0; i < theta.length - 2 * kAcross; i++) {
    along += (theta[i]! - 2 * theta[i + kAcross]! + theta[i + 2 * kAcross]!) ** 2;
  }
  for (let i = 0; i < kAlong; i++) {
    for (let j = i * kAcross; j < (i + 1) * kAcross - 2; j++) {
      across += (theta[j]! - 2 * theta[j + 1]! + theta[j + 2]!) ** 2;
    }
  }
  return { along, across };
}
