import { BLADES } from '../../shared/blade.ts';
import { startingStyle } from '../../src/blade/starting-styles.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { usualTarget } from '../../src/plan/hand-target.ts';
import { USUAL_OVERALL_MM } from '../../src/reed/overall-lengths.ts';
import type { BladeMapData } from './map-data.ts';
import { styleBlade, USUAL_BLADE_MM } from './style-blade.ts';

const ALONG = 61;
const ACROSS = 31;

/** Both blades of the reed that is usual for a style: stands where no reed of the maker's does yet. */
export function usualBlades(styleKey: string): Readonly<Record<(typeof BLADES)[number], BladeMapData>> {
  const style = startingStyle(styleKey);
  const grid = mapGrid(USUAL_BLADE_MM, ALONG, ACROSS);
  const frame = { lengths: style.lengths, overallLengthMm: USUAL_OVERALL_MM };
  const { blades } = usualTarget({ style, frame, grid });
  const [a, b] = BLADES.map((blade) => ({
    ...styleBlade(style.key, grid, { valuesMm: blades[blade]!.meanMm }),
    blade,
  }));
  return { A: a!, B: b! };
}
