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

/** Adds `factor` times a sparse row to dense weights. */
export function addRow(target: Float64Array, { index, weight }: SparseRow, factor: number, offset = 0): void {
  for (let k = 0; k < index.length; k++) target[offset + index[k]!]! += factor * weight[k]!;
}
