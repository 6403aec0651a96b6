import { addSparse } from '../numerics/sparse-row.ts';
import { addBaseLine, baseRow, type BaseSpace } from './base-surface.ts';
import { removalRow, type RemovalSpace } from './removal-space.ts';
import { addLineRow, coefficientCount } from './tensor-basis.ts';

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

/** Adds `factor` times the weights of one coefficient of the thickness, or of its derivative by z, as a spline across. */
export function addLayoutLine(
  target: Float64Array,
  layout: BladeLayout,
  line: { readonly zMm: number; readonly dz: 0 | 1 },
  column: number,
  factor: number,
): void {
  const { zMm: y, dz: dy } = line;
  addBaseLine(target, layout.base, line, column, factor);
  addLineRow(target, layout.removal, { y, dy }, column, -factor, baseCount(layout));
}
