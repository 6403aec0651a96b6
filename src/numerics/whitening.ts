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
 * L^-1 M for a block of columns M. Takes four rows at a time, so that each number is fetched a quarter as often.
 *
 * @param factor L, n x n, row by row, lower triangle.
 */
export function whitened(factor: Float64Array, n: number, block: ColumnBlock): ColumnBlock {
  const { columns, firstRow } = block;
  const values = block.values.slice();
  for (let i = firstRow; i < n; i++) {
    const row = i * n;
    const to = i * columns;
    let k = firstRow;
    for (; k + 3 < i; k += 4) {
      const a = factor[row + k]!;
      const b = factor[row + k + 1]!;
      const c = factor[row + k + 2]!;
      const d = factor[row + k + 3]!;
      const p = k * columns;
      const q = p + columns;
      const r = q + columns;
      const s = r + columns;
      for (let j = 0; j < columns; j++)
        values[to + j]! -=
          a * values[p + j]! + b * values[q + j]! + (c * values[r + j]! + d * values[s + j]!);
    }
    for (; k < i; k++) {
      const a = factor[row + k]!;
      const p = k * columns;
      for (let j = 0; j < columns; j++) values[to + j]! -= a * values[p + j]!;
    }
    const pivot = factor[row + i]!;
    for (let j = 0; j < columns; j++) values[to + j]! /= pivot;
  }
  return { ...block, values };
}

/** L^-1 x. */
export function whitenedVector(factor: Float64Array, n: number, x: ArrayLike<number>): Float64Array {
  const result = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    result[i] = (x[i]! - rowDot(factor, i * n, result, 0, i)) / factor[i * n + i]!;
  }
  return result;
}

/** A'B of two blocks of n rows, row by row. */
export function blockProduct(a: ColumnBlock, b: ColumnBlock): Float64Array {
  const product = new Float64Array(a.columns * b.columns);
  const n = a.values.length / a.columns;
  for (let i = Math.max(a.firstRow, b.firstRow); i < n; i++) {
    for (let p = 0; p < a.columns; p++) {
      const value = a.values[i * a.columns + p]!;
      if (value === 0) continue;
      for (let q = 0; q < b.columns; q++) product[p * b.columns + q]! += value * b.values[i * b.columns + q]!;
    }
  }
  return product;
}

/** A'x. */
export function blockTimes({ values, columns, firstRow }: ColumnBlock, x: Float64Array): Float64Array {
  const product = new Float64Array(columns);
  for (let i = firstRow; i < x.length; i++) {
    for (let p = 0; p < columns; p++) product[p]! += values[i * columns + p]! * x[i]!;
  }
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
 * C - W'W for W put together from blocks in the order of their offsets; C stays symmetric to the bit.
 *
 * @param c count x count, row by row, changed in place.
 */
export function subtractGram(c: Float64Array, count: number, blocks: readonly ColumnBlock[]): void {
  blocks.forEach((a, i) => blocks.slice(0, i + 1).forEach((b) => subtractProduct(c, count, a, b)));
  for (let p = 0; p < count; p++) for (let q = 0; q < p; q++) c[q * count + p] = c[p * count + q]!;
}

/** The part of C - W'W with rows from one block and columns from another at or before it; lower triangle only. */
function subtractProduct(c: Float64Array, count: number, a: ColumnBlock, b: ColumnBlock): void {
  const n = a.values.length / a.columns;
  const va = a.values;
  const vb = b.values;
  const same = a === b;
  let i = Math.max(a.firstRow, b.firstRow);
  for (; i < n; i += 4) {
    const rows = Math.min(4, n - i);
    const b0 = i * b.columns;
    const b1 = rows > 1 ? b0 + b.columns : b0;
    const b2 = rows > 2 ? b1 + b.columns : b0;
    const b3 = rows > 3 ? b2 + b.columns : b0;
    for (let p = 0; p < a.columns; p++) {
      const from = i * a.columns + p;
      const w0 = va[from]!;
      const w1 = rows > 1 ? va[from + a.columns]! : 0;
      const w2 = rows > 2 ? va[from + 2 * a.columns]! : 0;
      const w3 = rows > 3 ? va[from + 3 * a.columns]! : 0;
      const to = (a.offset + p) * count + b.offset;
      const end = same ? p + 1 : b.columns;
      for (let q = 0; q < end; q++)
        c[to + q]! -= w0 * vb[b0 + q]! + w1 * vb[b1 + q]! + (w2 * vb[b2 + q]! + w3 * vb[b3 + q]!);
    }
  }
}
