import type { UniformBSpline } from '../numerics/uniform-b-spline.ts';
import { addLineRow, designRow, type SparseRow, type TensorBasis } from './tensor-basis.ts';
import { warped, warpRate, type Warp } from './warp.ts';

/** Where the base surface lives: a tensor basis in the warped coordinate along and in u across. */
export interface BaseSpace {
  readonly warp: Warp;
  readonly basis: TensorBasis;
}

const COUNT_ALONG = 20;
/** Base surface and removals share it, so that every surface is one spline across. */
export const ACROSS_BASIS: UniformBSpline = { from: -1, to: 1, count: 9 };

export function baseSpace(warp: Warp, fromZMm: number, toZMm: number): BaseSpace {
  return {
    warp,
    basis: {
      along: { from: warped(warp, fromZMm), to: warped(warp, toZMm), count: COUNT_ALONG },
      across: ACROSS_BASIS,
    },
  };
}

/** Row of the base surface at a place, or of its first derivative by z or u. */
export function baseRow({ warp, basis }: BaseSpace, zMm: number, u: number, dz = 0, du = 0): SparseRow {
  const row = designRow(basis, warped(warp, zMm), u, dz, du);
  if (dz === 1) {
    const rate = warpRate(warp, zMm);
    for (let k = 0; k < row.weight.length; k++) row.weight[k]! *= rate;
  }
  return row;
}

/** Adds `factor` times the weights of one coefficient of the base surface as a spline across at one distance. */
export function addBaseLine(
  target: Float64Array,
  { warp, basis }: BaseSpace,
  zMm: number,
  column: number,
  factor: number,
): void {
  addLineRow(target, basis, warped(warp, zMm), column, factor);
}
