/** Files: readings and surfaces as others read them. */
import { bladeGrids as gridsOf, bladeSolids as solidsOf } from '../answers/surface-files.ts';
import type { BladeGrid } from '../exchange/surfaces/blade-solid.ts';
import type { NamedSolid } from '../exchange/surfaces/glb.ts';
import type { Blade } from '../../shared/blade.ts';
import { atPass } from './figures.ts';
import type { Fitted } from './fit.ts';

export { writeLongCsv } from '../exchange/csv/write-csv.ts';
export { writeSheetCsv } from '../exchange/csv/write-sheet.ts';
export { writeGlb, type NamedSolid } from '../exchange/surfaces/glb.ts';
export { writeStl } from '../exchange/surfaces/stl.ts';
export { rasterOf, writeX3p, type Raster } from '../exchange/surfaces/x3p.ts';
export type { BladeGrid, Solid } from '../exchange/surfaces/blade-solid.ts';

/** The fitted thickness of each blade that was read, over an even grid, in mm. */
export const bladeGrids = (reed: Fitted, pass?: number): readonly (BladeGrid & { readonly blade: Blade })[] =>
  gridsOf(atPass(reed, pass));

/** The blades as closed bodies in mm, flat, side by side; thickness `exaggeration` times as large. */
export const bladeSolids = (reed: Fitted, exaggeration = 1, pass?: number): readonly NamedSolid[] =>
  solidsOf(atPass(reed, pass), exaggeration);
