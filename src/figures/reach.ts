import { convexHull, isInHull } from '../numerics/convex-hull.ts';

interface Place {
  readonly fromTipMm: number;
  readonly across: number;
}

/**
 * How far readings reach on a blade: corners of the least convex outline around them, [mm from the tip, across]. A surface
 * is known inside it; beyond it, up to the edge of the blade, it is continued, and less and less sure.
 */
export type Reach = readonly (readonly [fromTipMm: number, across: number])[];

const TOLERANCE = 1e-9;

/** @param places At least one. */
export function reachOf(places: readonly Place[]): Reach {
  return convexHull(places.map(({ fromTipMm, across }) => [fromTipMm, across] as const));
}

/** Whether a place lies beyond the outermost readings. */
export function isBeyond(reach: Reach, { fromTipMm, across }: Place): boolean {
  return !isInHull(reach, [fromTipMm, across], TOLERANCE);
}
