import type { SparseWeights } from '../numerics/sparse-row.ts';
import type { UniformBSpline } from '../numerics/uniform-b-spline.ts';
import { designRow, lineRows, type TensorBasis } from './tensor-basis.ts';
import { warpBend, warped, warpRate, type Warp } from './warp.ts';

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

/** Row of the base surface at a place, or of its first or second derivative by z or u. */
export function baseRow({ warp, basis }: BaseSpace, zMm: number, u: number, dz = 0, du = 0): SparseWeights {
  const y = warped(warp, zMm);
  const row = designRow(basis, y, u, dz, du, ratePower(warp, zMm, dz));
  if (dz < 2) return row;
  const bend = designRow(basis, y, u, 1, du, warpBend(warp, zMm));
  return { index: row.index, weight: row.weight.map((value, k) => value + bend.weight[k]!) };
}

function ratePower(warp: Warp, zMm: number, order: number): number {
  if (order === 0) return 1;
  const rate = warpRate(warp, zMm);
  return order === 1 ? rate : rate * rate;
}

/** Rows of all coefficients of the base surface, or of its derivative by z, as a spline across, times a factor. */
export function baseLine(
  { warp, basis }: BaseSpace,
  { zMm, dz }: { readonly zMm: number; readonly dz: 0 | 1 },
  factor: number,
): SparseWeights[] {
  return lineRows(basis, { y: warped(warp, zMm), dy: dz }, factor * ratePower(warp, zMm, dz));
}
