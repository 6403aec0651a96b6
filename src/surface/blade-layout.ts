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

/** Figures of all passes weigh the same lines again and again; no more are kept than a few blades have. */
const lines = new WeakMap<BladeLayout, Map<number, readonly SparseWeights[]>[]>();
const MOST_LINES = 4000;

/** Rows of all coefficients of the thickness, or of its derivative by z, as a spline across. */
export function layoutLine(
  layout: BladeLayout,
  line: { readonly zMm: number; readonly dz: 0 | 1 },
): readonly SparseWeights[] {
  const ofLayout = lines.get(layout) ?? [new Map(), new Map()];
  lines.set(layout, ofLayout);
  const known = ofLayout[line.dz]!;
  const rows = known.get(line.zMm) ?? weighLine(layout, line);
  if (known.size >= MOST_LINES) known.clear();
  known.set(line.zMm, rows);
  return rows;
}

function weighLine(layout: BladeLayout, line: { readonly zMm: number; readonly dz: 0 | 1 }): SparseWeights[] {
  // z runs against the distance from the tip.
  const factor = line.dz === 1 ? -1 : 1;
  const gone = lineRows(layout.removal, { y: line.zMm, dy: line.dz }, -factor, baseCount(layout));
  return baseLine(layout.base, line, factor).map(({ index, weight }, column) => ({
    index: [...index, ...gone[column]!.index],
    weight: [...weight, ...gone[column]!.weight],
  }));
}
