import { basisAt, type UniformBSpline } from '../numerics/uniform-b-spline.ts';

/** Tensor product of two uniform cubic B-spline bases; coefficient (i, j) stands at i * across.count + j. */
export interface TensorBasis {
  readonly along: UniformBSpline;
  readonly across: UniformBSpline;
}

export function coefficientCount({ along, across }: TensorBasis): number {
  return along.count * across.count;
}

/** The sixteen coefficients that act at a place. */
export interface SparseRow {
  readonly index: Int32Array;
  readonly weight: Float64Array;
}

/** Row of the design matrix at a place, or of its derivatives. */
export function designRow(basis: TensorBasis, y: number, u: number, dy = 0, du = 0): SparseRow {
  const a = basisAt(basis.along, y, dy);
  const b = basisAt(basis.across, u, du);
  const index = new Int32Array(16);
  const weight = new Float64Array(16);
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) {
      index[4 * i + j] = (a.first + i) * basis.across.count + b.first + j;
      weight[4 * i + j] = a.weights[i]! * b.weights[j]!;
    }
  }
  return { index, weight };
}

/** Adds `factor` times the row at a place to dense weights, without making the row. */
export function addDesignRow(
  target: Float64Array,
  basis: TensorBasis,
  y: number,
  u: number,
  derivative: { readonly dy: number; readonly du: number },
  factor: number,
  offset = 0,
): void {
  const a = basisAt(basis.along, y, derivative.dy);
  const b = basisAt(basis.across, u, derivative.du);
  const columns = basis.across.count;
  let at = offset + a.first * columns + b.first;
  for (let i = 0; i < 4; i++, at += columns) {
    const row = factor * a.weights[i]!;
    for (let j = 0; j < 4; j++) target[at + j]! += row * b.weights[j]!;
  }
}

/** Adds `factor` times the weights of coefficient `column` of the spline across at one distance, or of its derivative. */
export function addLineRow(
  target: Float64Array,
  { along, across }: TensorBasis,
  { y, dy }: { readonly y: number; readonly dy: 0 | 1 },
  column: number,
  factor: number,
  offset = 0,
): void {
  const { first, weights } = basisAt(along, y, dy);
  for (let i = 0; i < 4; i++) target[offset + (first + i) * across.count + column]! += factor * weights[i]!;
}

/** Adds `factor` times a sparse row to dense weights. */
export function addRow(target: Float64Array, { index, weight }: SparseRow, factor: number, offset = 0): void {
  for (let k = 0; k < index.length; k++) target[offset + index[k]!]! += factor * weight[k]!;
}

/** A sparse row times dense coefficients. */
export function rowTimes({ index, weight }: SparseRow, theta: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < index.length; k++) sum += weight[k]! * theta[index[k]!]!;
  return sum;
}
