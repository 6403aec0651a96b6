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
 * Turns a block of columns M into L^-1 M, in place. Takes two rows of L and four of M at a time, so that each number is fetched less
 * often.
 *
 * @param factor L, n x n, row by row, lower triangle.
 */
export function whiten(factor: Float64Array, n: number, block: ColumnBlock): void {
  const { values, columns, firstRow } = block;
  let i = firstRow;
  for (; i + 1 < n; i += 2) {
    const below = i + 1;
    subtractEarlier(values, columns, factor, n, i, firstRow);
    scaleRow(values, columns, i, factor[i * n + i]!);
    subtractRow(values, columns, below, i, factor[below * n + i]!);
    scaleRow(values, columns, below, factor[below * n + below]!);
  }
  if (i < n) {
    for (let k = firstRow; k < i; k++) subtractRow(values, columns, i, k, factor[i * n + k]!);
    scaleRow(values, columns, i, factor[i * n + i]!);
  }
}

/** Takes rows `firstRow` to i - 1, as the factor weighs them, from rows i and i + 1. */
function subtractEarlier(
  values: Float64Array,
  columns: number,
  factor: Float64Array,
  n: number,
  i: number,
  firstRow: number,
): void {
  const [row, next] = [i * n, (i + 1) * n];
  const [to, below] = [i * columns, (i + 1) * columns];
  let k = firstRow;
  for (; k + 3 < i; k += 4) {
    const a = factor[row + k]!;
    const b = factor[row + k + 1]!;
    const c = factor[row + k + 2]!;
    const d = factor[row + k + 3]!;
    const e = factor[next + k]!;
    const f = factor[next + k + 1]!;
    const g = factor[next + k + 2]!;
    const h = factor[next + k + 3]!;
    const p = k * columns;
    const q = p + columns;
    const r = q + columns;
    const s = r + columns;
    for (let j = 0; j < columns; j++) {
      const vp = values[p + j]!;
      const vq = values[q + j]!;
      const vr = values[r + j]!;
      const vs = values[s + j]!;
      values[to + j]! -= a * vp + b * vq + (c * vr + d * vs);
      values[below + j]! -= e * vp + f * vq + (g * vr + h * vs);
    }
  }
  for (; k < i; k++) {
    subtractRow(values, columns, i, k, factor[row + k]!);
    subtractRow(values, columns, i + 1, k, factor[next + k]!);
  }
}

function subtractRow(values: Float64Array, columns: number, to: number, from: number, share: number): void {
  const [p, q] = [to * columns, from * columns];
  for (let j = 0; j < columns; j++) values[p + j]! -= share * values[q + j]!;
}

function scaleRow(values: Float64Array, columns: number, row: number, pivot: number): void {
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
 * lower triangle is right. Takes two rows of C and four of W at a time, so that each number is fetched less often.
 */
function subtractProduct(c: Float64Array, count: number, a: ColumnBlock, b: ColumnBlock): void {
  const n = a.values.length / a.columns;
  const [va, vb] = [a.values, b.values];
  const same = a === b;
  for (let i = Math.max(a.firstRow, b.firstRow); i < n; i += 4) {
    // Beyond the last row a weight of 0 stands for what is not there.
    const b0 = i * b.columns;
    const b1 = i + 1 < n ? b0 + b.columns : b0;
    const b2 = i + 2 < n ? b1 + b.columns : b0;
    const b3 = i + 3 < n ? b2 + b.columns : b0;
    const weight = (row: number, p: number) => (row < n && p < a.columns ? va[row * a.columns + p]! : 0);
    for (let p = 0; p < a.columns; p += 2) {
      const w0 = weight(i, p);
      const w1 = weight(i + 1, p);
      const w2 = weight(i + 2, p);
      const w3 = weight(i + 3, p);
      const x0 = weight(i, p + 1);
      const x1 = weight(i + 1, p + 1);
      const x2 = weight(i + 2, p + 1);
      const x3 = weight(i + 3, p + 1);
      const to = (a.offset + p) * count + b.offset;
      // An odd last row has no row below it: its second share goes to itself, and is 0.
      const below = p + 1 < a.columns ? to + count : to;
      const end = same ? Math.min(p + 2, b.columns) : b.columns;
      for (let q = 0; q < end; q++) {
        const v0 = vb[b0 + q]!;
        const v1 = vb[b1 + q]!;
        const v2 = vb[b2 + q]!;
        const v3 = vb[b3 + q]!;
        c[to + q]! -= w0 * v0 + w1 * v1 + (w2 * v2 + w3 * v3);
        c[below + q]! -= x0 * v0 + x1 * v1 + (x2 * v2 + x3 * v3);
      }
    }
  }
}
