import type { SparseWeights } from '../numerics/sparse-row.ts';
import { basisAt, type UniformBSpline } from '../numerics/uniform-b-spline.ts';

/** Tensor product of two uniform cubic B-spline bases; coefficient (i, j) stands at i * across.count + j. */
export interface TensorBasis {
  readonly along: UniformBSpline;
  readonly across: UniformBSpline;
}

export function coefficientCount({ along, across }: TensorBasis): number {
  return along.count * across.count;
}

/** Row of the design matrix at a place, or of its derivatives, times a factor: the sixteen coefficients that act there. */
export function designRow(
  basis: TensorBasis,
  y: number,
  u: number,
  dy = 0,
  du = 0,
  factor = 1,
): SparseWeights {
  const a = basisAt(basis.along, y, dy);
  const b = basisAt(basis.across, u, du);
  const index: number[] = [];
  const weight: number[] = [];
  for (let i = 0; i < 4; i++) {
    const from = (a.first + i) * basis.across.count + b.first;
    const row = factor * a.weights[i]!;
    for (let j = 0; j < 4; j++) {
      index.push(from + j);
      weight.push(row * b.weights[j]!);
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

/** Rows of all coefficients of the spline across at one distance, or of its derivative, times a factor: four weights each. */
export function lineRows(
  { along, across }: TensorBasis,
  { y, dy }: { readonly y: number; readonly dy: 0 | 1 },
  factor: number,
  offset = 0,
): SparseWeights[] {
  const { first, weights } = basisAt(along, y, dy);
  const weight = weights.map((value) => factor * value);
  return Array.from({ length: across.count }, (_, column) => ({
    index: weight.map((_, i) => offset + (first + i) * across.count + column),
    weight,
  }));
}
