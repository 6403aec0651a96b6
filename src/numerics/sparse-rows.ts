import type { SparseWeights } from './sparse-row.ts';

/** Rows of `width` weights each: `weight[i * width + k]` of row i belongs to column `index[i * width + k]`. */
export interface SparseRows {
  readonly count: number;
  readonly width: number;
  readonly index: Int32Array;
  readonly weight: Float64Array;
}

/** @param rows Of the same number of weights each. */
export function sparseRows(rows: readonly SparseWeights[]): SparseRows {
  const width = rows[0]?.index.length ?? 0;
  const index = new Int32Array(rows.length * width);
  const weight = new Float64Array(rows.length * width);
  rows.forEach((row, i) => {
    index.set(row.index, i * width);
    weight.set(row.weight, i * width);
  });
  return { count: rows.length, width, index, weight };
}

/** Row i times x, which stands from `offset` on. */
export function rowTimes(
  { width, index, weight }: SparseRows,
  i: number,
  x: Float64Array,
  offset = 0,
): number {
  let sum = 0;
  for (let k = i * width; k < (i + 1) * width; k++) sum += weight[k]! * x[offset + index[k]!]!;
  return sum;
}

/** Adds `factor` times row i to what stands from `offset` on. */
export function addRow(
  target: Float64Array,
  { width, index, weight }: SparseRows,
  i: number,
  factor: number,
  offset = 0,
): void {
  for (let k = i * width; k < (i + 1) * width; k++) target[offset + index[k]!]! += factor * weight[k]!;
}

/**
 * All rows times a row-by-row matrix, four weights at a time: count x columns.
 *
 * @param stride Columns of the matrix, of which the first `columns` count.
 */
export function rowsTimes(
  { count, width, index, weight }: SparseRows,
  m: Float64Array,
  stride: number,
  columns = stride,
): Float64Array {
  const product = new Float64Array(count * columns);
  for (let i = 0; i < count; i++) {
    const to = i * columns;
    const end = (i + 1) * width;
    let k = i * width;
    for (; k + 3 < end; k += 4) {
      const a = weight[k]!;
      const b = weight[k + 1]!;
      const c = weight[k + 2]!;
      const d = weight[k + 3]!;
      const p = index[k]! * stride;
      const q = index[k + 1]! * stride;
      const r = index[k + 2]! * stride;
      const s = index[k + 3]! * stride;
      for (let j = 0; j < columns; j++)
        product[to + j]! += a * m[p + j]! + b * m[q + j]! + (c * m[r + j]! + d * m[s + j]!);
    }
    for (; k < end; k++)
      for (let j = 0; j < columns; j++) product[to + j]! += weight[k]! * m[index[k]! * stride + j]!;
  }
  return product;
}

/** The transposed rows times a matrix of `count` rows: adds R' M to a matrix of as many columns. */
export function addTransposedTimesRows(
  target: Float64Array,
  { count, width, index, weight }: SparseRows,
  m: Float64Array,
  columns: number,
): void {
  for (let i = 0; i < count; i++) {
    const from = i * columns;
    for (let k = i * width; k < (i + 1) * width; k++) {
      const w = weight[k]!;
      const to = index[k]! * columns;
      for (let j = 0; j < columns; j++) target[to + j]! += w * m[from + j]!;
    }
  }
}
