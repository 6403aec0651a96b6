import { Matrix, CholeskyDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { cholesky } from '../../../src/numerics/cholesky.ts';
import { solveUpper, timesMatrix, transposed } from '../../../src/numerics/row-products.ts';
import { sparseBilinear, sparseDot, sparseTimes, takeSparse } from '../../../src/numerics/sparse-row.ts';
import { rowGram, subtractGram, whiten } from '../../../src/numerics/whitening.ts';
import { seededRandom } from '../../seeded-random.ts';

const random = seededRandom(7);
const numbers = (count: number) => Float64Array.from({ length: count }, () => random() - 0.5);

/** B'B and a little on the diagonal: positive definite. */
function positive(n: number): Matrix {
  const b = Matrix.from1DArray(n + 2, n, numbers((n + 2) * n));
  return b.transpose().mmul(b).add(Matrix.eye(n).mul(0.1));
}

// ml-matrix is the independent software; only the order of the sums differs.
describe.each([1, 2, 3, 8, 13])('dense algebra of %i rows', (n) => {
  const a = positive(n);
  const factor = cholesky(Float64Array.from(a.to1DArray()), n);

  it('factors as ml-matrix does', () => {
    const expected = new CholeskyDecomposition(a).lowerTriangularMatrix.to1DArray();
    factor.forEach((value, i) => expect(value).toBeCloseTo(expected[i]!, 12));
  });

  it('whitens, and takes the product of what is whitened from a matrix', () => {
    const columns = 5;
    const block = { values: numbers(n * columns), columns, firstRow: 0, offset: 0 };
    const m = Matrix.from1DArray(n, columns, [...block.values]);
    whiten(factor, n, block);
    const inverse = new CholeskyDecomposition(a).solve(m);
    const expected = m.transpose().mmul(inverse).mul(-1);
    const c = new Float64Array(columns * columns);
    subtractGram(c, columns, [block]);
    c.forEach((value, i) => expect(value).toBeCloseTo(expected.to1DArray()[i]!, 10));
  });

  it('multiplies rows with rows', () => {
    const left = numbers(n * 7);
    const l = Matrix.from1DArray(n, 7, [...left]);
    const gram = rowGram(left, n, 7);
    const rows = l.mmul(l.transpose());
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) expect(gram[i * n + j]).toBeCloseTo(j > i ? 0 : rows.get(i, j), 14);
  });

  it('solves by the factor turned round', () => {
    const right = numbers(n * 3);
    const solved = right.slice();
    solveUpper(factor, n, solved, 3);
    const l = Matrix.from1DArray(n, n, [...factor]);
    const back = l.transpose().mmul(Matrix.from1DArray(n, 3, [...solved]));
    right.forEach((value, k) => expect(back.to1DArray()[k]).toBeCloseTo(value, 10));
  });

  it('multiplies rows with a matrix, and transposes', () => {
    const [left, m] = [numbers(n * 9), numbers(7 * 5)];
    // Of the nine columns the first seven.
    const expected = Matrix.from1DArray(n, 9, [...left])
      .subMatrix(0, n - 1, 0, 6)
      .mmul(Matrix.from1DArray(7, 5, [...m]));
    const product = timesMatrix({ values: left, rows: n, columns: 7, stride: 9 }, m);
    product.forEach((value, k) => expect(value).toBeCloseTo(expected.to1DArray()[k]!, 14));
    const turned = expected.transpose().to1DArray();
    transposed(product, 5).forEach((value, k) => expect(value).toBeCloseTo(turned[k]!, 14));
  });
});

it('takes products of several blocks, the later of which begin further down, from one matrix', () => {
  const [n, count] = [7, 8];
  const blocks = [
    { values: numbers(n * 3), columns: 3, firstRow: 0, offset: 0 },
    { values: numbers(n * 5), columns: 5, firstRow: 2, offset: 3 },
  ];
  blocks[1]!.values.fill(0, 0, 10);
  const w = new Matrix(n, count);
  blocks.forEach(({ values, columns, offset }) =>
    values.forEach((value, k) => w.set(Math.floor(k / columns), offset + (k % columns), value)),
  );
  const c = new Float64Array(count * count);
  subtractGram(c, count, blocks);
  const expected = w.transpose().mmul(w).mul(-1).to1DArray();
  c.forEach((value, i) => expect(value).toBeCloseTo(expected[i]!, 13));
});

it('finds with sparse weights what dense ones find', () => {
  const dense = Float64Array.from([0, 2, 0, -1, 0.5]);
  const m = numbers(25);
  const row = takeSparse(dense.slice());
  expect(row).toEqual({ index: [1, 3, 4], weight: [2, -1, 0.5] });
  const product = Matrix.rowVector(dense).mmul(Matrix.from1DArray(5, 5, m));
  sparseTimes(row, m, 5).forEach((value, i) => expect(value).toBeCloseTo(product.get(0, i), 14));
  expect(sparseBilinear(row, m, 5, row)).toBeCloseTo(product.mmul(Matrix.columnVector(dense)).get(0, 0), 14);
  expect(sparseDot(row, m.subarray(0, 5))).toBeCloseTo(2 * m[1]! - m[3]! + 0.5 * m[4]!, 14);
});

it('leaves the buffer empty for the next weights', () => {
  const buffer = Float64Array.from([0, 3, 0]);
  takeSparse(buffer);
  expect([...buffer]).toEqual([0, 0, 0]);
});
