import type { ColumnBlock } from '../numerics/whitening.ts';
import type { CaneReading } from './blade-data.ts';
import type { SparseRow } from './tensor-basis.ts';

/** The places that were read, each once: passes come back to the same stations, and what a place decides is worked out once. */
export interface DistinctPlaces {
  /** Of each reading, the number of its place. */
  readonly of: Int32Array;
  /** Of each place, the last reading there. */
  readonly last: readonly number[];
}

export function distinctPlaces(readings: readonly CaneReading[]): DistinctPlaces {
  const numbers = new Map<string, number>();
  const last: number[] = [];
  const of = Int32Array.from(readings, ({ zMm, reading }, i) => {
    const key = `${zMm} ${reading.across}`;
    const number = numbers.get(key) ?? numbers.size;
    numbers.set(key, number);
    last[number] = i;
    return number;
  });
  return { of, last };
}

/** Where a block stands: its first row and its columns. */
export type BlockPlace = Omit<ColumnBlock, 'values'>;

/** Prior covariance of the readings with the coefficients of a block, times a factor; once for each place. */
export function throughPlaces(
  { of, last }: DistinctPlaces,
  rows: readonly SparseRow[],
  prior: Float64Array,
  factor: number,
  block: BlockPlace,
): ColumnBlock {
  const { columns, firstRow } = block;
  const values = new Float64Array(of.length * columns);
  rows.forEach((row, place) => {
    if (last[place]! >= firstRow) addRowTimes(values, last[place]! * columns, row, prior, columns, factor);
  });
  for (let i = firstRow; i < of.length; i++) {
    const from = last[of[i]!]!;
    if (from !== i) values.copyWithin(i * columns, from * columns, (from + 1) * columns);
  }
  return { ...block, values };
}

/** Adds the covariance of the readings from a block to K, times a factor; lower triangle, once for two places. */
export function addBetween(
  k: Float64Array,
  { of, last }: DistinctPlaces,
  rows: readonly SparseRow[],
  { values, columns, firstRow }: ColumnBlock,
  factor: number,
): void {
  const n = of.length;
  const count = last.length;
  const between = new Float64Array(count * count);
  for (let p = 0; p < count; p++) {
    if (last[p]! < firstRow) continue;
    for (let q = 0; q <= p; q++) {
      const value = factor * sparseDot(rows[q]!, values, last[p]! * columns);
      between[p * count + q] = value;
      between[q * count + p] = value;
    }
  }
  for (let i = firstRow; i < n; i++) {
    const at = of[i]! * count;
    for (let j = firstRow; j <= i; j++) k[i * n + j]! += between[at + of[j]!]!;
  }
}

/** Adds `factor` times a sparse row times a matrix, four of the row's sixteen weights at a time. */
function addRowTimes(
  target: Float64Array,
  at: number,
  { index, weight }: SparseRow,
  m: Float64Array,
  columns: number,
  factor: number,
): void {
  for (let k = 0; k < index.length; k += 4) {
    const a = factor * weight[k]!;
    const b = factor * weight[k + 1]!;
    const c = factor * weight[k + 2]!;
    const d = factor * weight[k + 3]!;
    const p = index[k]! * columns;
    const q = index[k + 1]! * columns;
    const r = index[k + 2]! * columns;
    const s = index[k + 3]! * columns;
    for (let j = 0; j < columns; j++)
      target[at + j]! += a * m[p + j]! + b * m[q + j]! + (c * m[r + j]! + d * m[s + j]!);
  }
}

function sparseDot({ index, weight }: SparseRow, dense: Float64Array, offset: number): number {
  let sum = 0;
  for (let k = 0; k < index.length; k++) sum += weight[k]! * dense[offset + index[k]!]!;
  return sum;
}
