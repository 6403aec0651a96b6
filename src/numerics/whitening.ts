import { addProduct, rowsOf } from './add-product.ts';
import { rowDot } from './cholesky.ts';

/** Columns `offset` to `offset + columns` of a larger matrix with n rows; rows before `firstRow` are zero. */
export interface ColumnBlock {
  /** n x columns, row by row. */
  readonly values: Float64Array;
  readonly columns: number;
  readonly firstRow: number;
  readonly offset: number;
}

/**
 * Turns a block of columns M into L^-1 M, in place, four rows at a time.
 *
 * @param factor L, n x n, row by row, lower triangle.
 */
export function whiten(factor: Float64Array, n: number, block: ColumnBlock): void {
  const { values, columns, firstRow } = block;
  for (let first = firstRow; first < n; first += 4) {
    const end = Math.min(first + 4, n);
    const below = { values: factor, at: first * n + firstRow, row: n, column: 1, sign: -1 } as const;
    if (first > firstRow)
      addProduct(
        rowsOf(values, columns, first, end),
        below,
        rowsOf(values, columns, firstRow, first),
        columns,
      );
    for (let i = first; i < end; i++) {
      for (let k = first; k < i; k++) subtractRow(values, columns, i, k, factor[i * n + k]!);
      scaleRow(values, columns, i, factor[i * n + i]!);
    }
  }
}

export function subtractRow(
  values: Float64Array,
  columns: number,
  to: number,
  from: number,
  share: number,
): void {
  const [p, q] = [to * columns, from * columns];
  for (let j = 0; j < columns; j++) values[p + j]! -= share * values[q + j]!;
}

export function scaleRow(values: Float64Array, columns: number, row: number, pivot: number): void {
  const at = row * columns;
  for (let j = 0; j < columns; j++) values[at + j]! /= pivot;
}

/** L^-1 x. */
export function whitenedVector(factor: Float64Array, n: number, x: ArrayLike<number>): Float64Array {
  const result = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    result[i] = (x[i]! - rowDot(factor, i * n, result, 0, i)) / factor[i * n + i]!;
  }
  return result;
}

/**
 * A A' for a matrix of n rows, n x n; lower triangle. Takes two rows by two at a time, so that each number is fetched less
 * often.
 */
export function rowGram(a: Float64Array, n: number, columns: number): Float64Array {
  const gram = new Float64Array(n * n);
  for (let i = 0; i < n; i += 2) {
    const row = i * columns;
    // An odd last row stands for its missing neighbour: what it would give is the same number again.
    const next = Math.min(i + 1, n - 1) * columns;
    for (let j = 0; j <= i; j += 2) {
      const p = j * columns;
      const q = Math.min(j + 1, n - 1) * columns;
      let rowP = 0;
      let rowQ = 0;
      let nextP = 0;
      let nextQ = 0;
      for (let k = 0; k < columns; k++) {
        const x = a[row + k]!;
        const y = a[next + k]!;
        const u = a[p + k]!;
        const v = a[q + k]!;
        rowP += x * u;
        rowQ += x * v;
        nextP += y * u;
        nextQ += y * v;
      }
      gram[i * n + j] = rowP;
      if (j < i) gram[i * n + j + 1] = rowQ;
      if (i + 1 < n) {
        gram[(i + 1) * n + j] = nextP;
        gram[(i + 1) * n + j + 1] = nextQ;
      }
    }
  }
  return gram;
}

/** A'x. Takes four rows of A at a time; rows where x is zero at the top cost nothing. */
export function blockTimes({ values, columns, firstRow }: ColumnBlock, x: Float64Array): Float64Array {
  const product = new Float64Array(columns);
  const n = x.length;
  let i = firstRow;
  while (i < n && x[i] === 0) i++;
  for (; i + 3 < n; i += 4) {
    const [a, b, c, d] = [x[i]!, x[i + 1]!, x[i + 2]!, x[i + 3]!];
    const p = i * columns;
    const q = p + columns;
    const r = q + columns;
    const s = r + columns;
    for (let j = 0; j < columns; j++)
      product[j]! += a * values[p + j]! + b * values[q + j]! + (c * values[r + j]! + d * values[s + j]!);
  }
  for (; i < n; i++) for (let j = 0; j < columns; j++) product[j]! += x[i]! * values[i * columns + j]!;
  return product;
}

/** Sum of squares of each column. */
export function columnSquares({ values, columns, firstRow }: ColumnBlock): Float64Array {
  const squares = new Float64Array(columns);
  const n = values.length / columns;
  for (let i = firstRow; i < n; i++) {
    for (let p = 0; p < columns; p++) {
      const value = values[i * columns + p]!;
      squares[p]! += value * value;
    }
  }
  return squares;
}

/**
 * C - W'W for W put together from blocks in the order of their offsets, which may end before C does; C stays symmetric to
 * the bit.
 *
 * @param c count x count, row by row, changed in place.
 */
export function subtractGram(c: Float64Array, count: number, blocks: readonly ColumnBlock[]): void {
  blocks.forEach((a, i) => blocks.slice(0, i + 1).forEach((b) => subtractProduct(c, count, a, b)));
  const end = Math.max(0, ...blocks.map(({ offset, columns }) => offset + columns));
  for (let p = 0; p < end; p++) for (let q = 0; q < p; q++) c[q * count + p] = c[p * count + q]!;
}

/**
 * The part of C - W'W with rows from one block and columns from another at or before it. Of its own block only the
 * lower triangle is right.
 */
function subtractProduct(c: Float64Array, count: number, a: ColumnBlock, b: ColumnBlock): void {
  const firstRow = Math.max(a.firstRow, b.firstRow);
  const n = a.values.length / a.columns;
  for (let p = 0; p < a.columns; p += 4) {
    addProduct(
      { values: c, at: (a.offset + p) * count + b.offset, count: Math.min(4, a.columns - p), stride: count },
      { values: a.values, at: firstRow * a.columns + p, row: 1, column: a.columns, sign: -1 },
      rowsOf(b.values, b.columns, firstRow, n),
      a === b ? Math.min(p + 4, b.columns) : b.columns,
    );
  }
}
