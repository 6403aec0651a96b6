import type { Point } from '../numerics/polygon.ts';
import { cellMm, CLEAR, eachPlace, outlinesAbove, type StrokeLimits } from './stroke-limits.ts';

/** Where strokes go on one blade. */
export interface StrokeRegion {
  /** Area that each place of the grid stands for, mm2; 0 outside. */
  readonly areasMm2: Float64Array;
  readonly areaMm2: number;
}

/** A knife does not work a patch that is smaller, mm2. Common practice, no source. */
const LEAST_PATCH_MM2 = 0.5;

/** The region where a field allows strokes, without patches too small for a knife. */
export function strokeRegion({ map, halfWidthMm }: StrokeLimits, field: Float64Array): StrokeRegion {
  const { us } = map;
  const cell = cellMm(map);
  const areasMm2 = new Float64Array(field.length);
  eachPlace(map, (y, _, at) => {
    if (field[at]! > CLEAR) areasMm2[at] = cell * halfWidthMm(y);
  });
  for (const patch of patchesOf(areasMm2, us.length)) {
    const area = patch.reduce((sum, at) => sum + areasMm2[at]!, 0);
    if (area < LEAST_PATCH_MM2) for (const at of patch) areasMm2[at] = 0;
  }
  return { areasMm2, areaMm2: areasMm2.reduce((sum, area) => sum + area, 0) };
}

/** Closed outlines of a region, [mm from the tip, across]; holes turn the other way. */
export function outlinesOf(
  { map }: StrokeLimits,
  field: Float64Array,
  { areasMm2 }: StrokeRegion,
): Point[][] {
  const kept = field.map((value, at) => (value > CLEAR && areasMm2[at] === 0 ? 0 : value));
  return outlinesAbove(map, kept, CLEAR);
}

/** Places that hang together along or across, as lists. */
function patchesOf(areas: Float64Array, columns: number): number[][] {
  const seen = new Uint8Array(areas.length);
  const patches: number[][] = [];
  areas.forEach((area, start) => {
    if (area === 0 || seen[start] === 1) return;
    const patch = [start];
    seen[start] = 1;
    for (let k = 0; k < patch.length; k++) {
      const at = patch[k]!;
      const column = at % columns;
      const beside = [at - columns, at + columns, ...(column > 0 ? [at - 1] : [])];
      if (column < columns - 1) beside.push(at + 1);
      for (const next of beside) {
        if (!(areas[next]! > 0) || seen[next] === 1) continue;
        seen[next] = 1;
        patch.push(next);
      }
    }
    patches.push(patch);
  });
  return patches;
}
