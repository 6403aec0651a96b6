import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { mapGrid, thicknessMap } from '../../src/figures/surface-map.ts';
import { BLADES } from '../../shared/blade.ts';
import type { BladeMapData } from '../map/map-data.ts';
import { bladeMapData } from '../map/map-of-figures.ts';

/** A blank blade, for a reed that was not read. */
export const BLANK: BladeMapData = {
  blade: 'A',
  bladeLengthMm: 23,
  ysMm: [0, 5, 11, 17, 23],
  us: [-1, 1],
  halfWidthMm: [3.5, 3.37, 2.96, 2.58, 2.32],
  valuesMm: [NaN, NaN, NaN, NaN, NaN, NaN, NaN, NaN, NaN, NaN],
  marks: [],
  zones: [],
};

/** The same as a body of bark, both blades. */
export const BARK: readonly BladeMapData[] = BLADES.map((blade) => ({ ...BLANK, blade }));

const ALONG = 31;
const ACROSS = 15;

/** The small picture of a reed in its slot: blade A after the last pass, or B where A was not read. */
export function slotPicture(benched: FittedReed): BladeMapData | undefined {
  const { model, assembled } = benched;
  if (!model) return undefined;
  const pass = assembled.passes.length - 1;
  const geometry = assembled.passes[pass]!;
  const blade = model.blades.A ? 'A' : 'B';
  const map = thicknessMap(model, blade, pass, mapGrid(geometry.bladeLengthMm, ALONG, ACROSS));
  return bladeMapData({ blade, map, geometry, readToMm: geometry.bladeLengthMm, marks: [], zones: [] });
}
