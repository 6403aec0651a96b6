import { gridValue } from '../map/blade-drawing.ts';
import type { BladeGrid, OutlinePoint } from '../map/map-data.ts';

/** Slanted lines: so far apart along, and so many mm along for one half-width across. */
const HATCH = { eachMm: 0.45, slopeMm: 2.4, steps: 48 };

/** Runs of slanted lines over the places where a mark of a grid stands at half or more. */
export function hatching(grid: BladeGrid, marked: ArrayLike<number>): OutlinePoint[][] {
  const [first, last] = [grid.ysMm[0]!, grid.ysMm[grid.ysMm.length - 1]!];
  const count = Math.ceil((last - first + 2 * HATCH.slopeMm) / HATCH.eachMm);
  return Array.from({ length: count }, (_, k) => first - HATCH.slopeMm + k * HATCH.eachMm).flatMap((atMm) => {
    const runs: OutlinePoint[][] = [[]];
    for (let step = 0; step <= HATCH.steps; step++) {
      const across = -1 + (2 * step) / HATCH.steps;
      const fromTipMm = atMm + HATCH.slopeMm * across;
      const isInside = fromTipMm >= first && fromTipMm <= last;
      if (isInside && gridValue(grid, marked, { fromTipMm, across }) >= 0.5)
        runs.at(-1)!.push({ fromTipMm, across });
      else if (runs.at(-1)!.length > 0) runs.push([]);
    }
    return runs.filter(({ length }) => length > 1);
  });
}
