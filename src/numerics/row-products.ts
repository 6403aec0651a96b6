import { addProduct, rowsOf } from './add-product.ts';
import { scaleRow, subtractRow } from './whitening.ts';

/** Row-by-row numbers of which the first `columns` of each `stride` count. */
export interface RowBlock {
  readonly values: Float64Array;
  readonly rows: number;
  readonly columns: number;
  readonly stride: number;
}

/**
 * A M: a's rows x `columns`.
 *
 * @param m As many rows as a has columns, row by row.
 */
export function timesMatrix(
  { values, rows, columns: inner, stride }: RowBlock,
  m: Float64Array,
): Float64Array {
  const columns = m.length / inner;
  const product = new Float64Array(rows * columns);
  addProduct(
    rowsOf(product, columns, 0, rows),
    { values, at: 0, row: stride, column: 1, sign: 1 },
    rowsOf(m, columns, 0, inner),
    columns,
  );
  return product;
}

/** Turns n rows of `columns` numbers M into L'^-1 M, in place, four rows at a time. */
export function solveUpper(l: Float64Array, n: number, m: Float64Array, columns: number): void {
  for (let end = n; end > 0; end -= 4) {
    const first = Math.max(0, end - 4);
    const above = { values: l, at: end * n + first, row: 1, column: n, sign: -1 } as const;
    if (end < n) addProduct(rowsOf(m, columns, first, end), above, rowsOf(m, columns, end, n), columns);
    for (let i = end - 1; i >= first; i--) {
      for (let k = i + 1; k < end; k++) subtractRow(m, columns, i, k, l[k * n + i]!);
      scaleRow(m, columns, i, l[i * n + i]!);
    }
  }
}

/** M' of `columns` columns. */
export function transposed(m: Float64Array, columns: number): Float64Array {
  const rows = m.length / columns;
  const turned = new Float64Array(m.length);
  for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) turned[j * rows + i] = m[i * columns + j]!;
  return turned;
}
