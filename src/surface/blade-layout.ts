import { addSparse, type SparseWeights } from '../numerics/sparse-row.ts';
import { baseLine, baseRow, type BaseSpace } from './base-surface.ts';
import { removalRow, type RemovalSpace } from './removal-space.ts';
import { coefficientCount, lineRows } from './tensor-basis.ts';

/** One blade after a pass: the coefficients of a base surface, and then those of all that has gone since. */
export interface BladeLayout {
  readonly base: BaseSpace;
  readonly removal: RemovalSpace;
}

export const baseCount = ({ base }: BladeLayout) => coefficientCount(base.basis);

/** Adds `factor` times the weights of a place's thickness, or of its derivative by z or u. */
export function addLayoutWeights(
  target: Float64Array,
  layout: BladeLayout,
  zMm: number,
  u: number,
  { dz, du }: { readonly dz: number; readonly du: number },
  factor: number,
): void {
  addSparse(target, baseRow(layout.base, zMm, u, dz, du), factor);
  addSparse(target, removalRow(layout.removal, zMm, u, dz, du), -factor, baseCount(layout));
}

/** Rows of all coefficients of the thickness, or of its derivative by z, as a spline across, times a factor. */
export function layoutLine(
  layout: BladeLayout,
  line: { readonly zMm: number; readonly dz: 0 | 1 },
  factor: number,
): SparseWeights[] {
  const gone = lineRows(layout.removal, { y: line.zMm, dy: line.dz }, -factor, baseCount(layout));
  return baseLine(layout.base, line, factor).map(({ index, weight }, column) => ({
    index: [...index, ...gone[column]!.index],
    weight: [...weight, ...gone[column]!.weight],
  }));
}
