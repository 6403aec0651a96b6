import { BLADES, type Blade } from '../../shared/blade.ts';
import { bladeSolid, type BladeGrid } from '../exchange/surfaces/blade-solid.ts';
import type { NamedSolid } from '../exchange/surfaces/glb.ts';
import { mapGrid, thicknessMap } from '../figures/surface-map.ts';
import type { ReedAtPass } from './fitted-reed.ts';

/** Places along and across at which a surface is written down. */
const [ALONG, ACROSS] = [93, 33];
/** Room between two blades that lie side by side, mm. */
const BETWEEN_MM = 2;

/** The fitted thickness of each blade that was read, over an even grid. Empty where nothing was read. */
export function bladeGrids({
  benched,
  pass,
}: ReedAtPass): readonly (BladeGrid & { readonly blade: Blade })[] {
  const { model, assembled } = benched;
  if (!model) return [];
  const { bladeLengthMm, halfWidthMm } = assembled.passes[pass]!;
  return BLADES.filter((blade) => model.blades[blade]).map((blade) => {
    const { ysMm, us, valuesMm } = thicknessMap(model, blade, pass, mapGrid(bladeLengthMm, ALONG, ACROSS));
    return { blade, ysMm, us, halfWidthsMm: ysMm.map(halfWidthMm), thicknessMm: valuesMm };
  });
}

/** The blades as closed bodies, flat, side by side, A on the left; thickness `exaggeration` times as large. */
export function bladeSolids(reed: ReedAtPass, exaggeration: number): readonly NamedSolid[] {
  return bladeGrids(reed).map((grid) => {
    const aside = Math.max(...grid.halfWidthsMm) + BETWEEN_MM / 2;
    const shiftMm = grid.blade === 'A' ? -aside : aside;
    const solid = bladeSolid(grid, { exaggeration, riseMm: { tip: 0, end: 0 }, shiftMm });
    return { name: `Blade ${grid.blade}`, solid };
  });
}
