import { addSparse } from '../numerics/sparse-row.ts';
import { addBaseLine, baseRow, type BaseSpace } from './base-surface.ts';
import { removalRow, type RemovalSpace } from './removal-space.ts';
import { addLineRow, coefficientCount } from './tensor-basis.ts';

/**
 * One blade over all its passes: a base surface less what each later pass took off. The coefficients stand one block
 * after the other: base first, then one block for each pass in `removalPasses`.
 */
export interface BladeLayout {
  readonly base: BaseSpace;
  readonly removal: RemovalSpace;
  /** First pass that read this blade: its surface is the base. */
  readonly basePass: number;
  /** Passes that read this blade, but for the first: each has a block for what it took off. */
  readonly removalPasses: readonly number[];
  readonly baseCount: number;
  readonly removalCount: number;
  readonly count: number;
}

/** @param passesRead In rising order. */
export function bladeLayout(
  base: BaseSpace,
  removal: RemovalSpace,
  [basePass = 0, ...removalPasses]: readonly number[],
): BladeLayout {
  const baseCount = coefficientCount(base.basis);
  const removalCount = coefficientCount(removal);
  return {
    base,
    removal,
    basePass,
    removalPasses,
    baseCount,
    removalCount,
    count: baseCount + removalPasses.length * removalCount,
  };
}

/** Passes that read this blade, in rising order. */
export function passesRead({ basePass, removalPasses }: BladeLayout): readonly number[] {
  return [basePass, ...removalPasses];
}

/** Adds `factor` times the weights of a place's thickness after a pass, or of its derivative by z or u. */
export function addLayoutWeights(
  target: Float64Array,
  layout: BladeLayout,
  pass: number,
  zMm: number,
  u: number,
  derivative: { readonly dz: number; readonly du: number },
  factor: number,
): void {
  const { dz, du } = derivative;
  addSparse(target, baseRow(layout.base, zMm, u, dz, du), factor);
  const removal = removalRow(layout.removal, zMm, u, dz, du);
  layout.removalPasses.forEach((removalPass, block) => {
    if (removalPass <= pass)
      addSparse(target, removal, -factor, layout.baseCount + block * layout.removalCount);
  });
}

/** Adds `factor` times the weights of one coefficient of the thickness, or of its derivative by z, as a spline across. */
export function addLayoutLine(
  target: Float64Array,
  layout: BladeLayout,
  pass: number,
  line: { readonly zMm: number; readonly dz: 0 | 1 },
  column: number,
  factor: number,
): void {
  const { zMm: y, dz: dy } = line;
  addBaseLine(target, layout.base, line, column, factor);
  layout.removalPasses.forEach((removalPass, block) => {
    const offset = layout.baseCount + block * layout.removalCount;
    if (removalPass <= pass) addLineRow(target, layout.removal, { y, dy }, column, -factor, offset);
  });
}
