import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import { mapGrid, thicknessMap } from '../../src/figures/surface-map.ts';
import type { BladeMapData } from '../map/map-data.ts';
import { bladeMapData } from '../map/map-of-figures.ts';

const ALONG = 31;
const ACROSS = 15;

/** The small picture of a reed in its slot: blade A after the last pass, or B where A was not read. */
export function slotPicture(benched: BenchedReed): BladeMapData | undefined {
  const { model, assembled } = benched;
  if (!model) return undefined;
  const pass = assembled.passes.length - 1;
  const geometry = assembled.passes[pass]!;
  const blade = model.blades.A ? 'A' : 'B';
  const map = thicknessMap(model, blade, pass, mapGrid(geometry.bladeLengthMm, ALONG, ACROSS));
  return bladeMapData({ blade, map, geometry, readToMm: geometry.bladeLengthMm, marks: [], zones: [] });
}
