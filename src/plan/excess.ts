import { BLADES, type Blade } from '../../shared/blade.ts';
import { measurableFactor } from '../figures/measurable.ts';
import { thicknessMap, type FigureMap, type MapGrid } from '../figures/surface-map.ts';
import type { ReedModel } from '../surface/reed-model.ts';
import type { Target } from './target.ts';

/** A blade less its target. Positive is excess, which can be scraped; negative is lack, which cannot be put back. */
export interface ExcessMap extends FigureMap {
  /** 1 where the difference is larger than its doubt and than the favourites' own spread. */
  readonly sure: Uint8Array;
  /** 1 where it is larger than its doubt, but within what the favourites differ by. */
  readonly withinVariety: Uint8Array;
  /** Thickness now. */
  readonly thicknessMm: Float64Array;
  /** Its doubt alone, one standard uncertainty. */
  readonly thicknessUMm: Float64Array;
}

/** Standard deviations of the favourites' own spread that still count as the maker's variety. */
const VARIETY = 1;

/**
 * Excess over a target after a pass, optionally as it would be if the tip were clipped first.
 *
 * @param clipMm The place y from the new tip is the cane at y + clipMm now.
 */
export function excessOver(
  model: ReedModel,
  pass: number,
  target: Target,
  clipMm = 0,
): Partial<Record<Blade, ExcessMap>> {
  const shifted: MapGrid = { ysMm: target.grid.ysMm.map((y) => y + clipMm), us: target.grid.us };
  const factor = measurableFactor(target.grid);
  const result: Partial<Record<Blade, ExcessMap>> = {};
  for (const blade of BLADES) {
    const aim = target.blades[blade];
    if (!aim || !model.blades[blade]) continue;
    const now = thicknessMap(model, blade, pass, shifted);
    const valuesMm = now.valuesMm.map((value, i) => value - aim.meanMm[i]!);
    const uMm = now.uMm.map((u, i) => Math.hypot(u, aim.uMm[i]!));
    const told = valuesMm.map((value, i) => (Math.abs(value) > factor * uMm[i]! ? 1 : 0));
    const own = valuesMm.map((value, i) => (Math.abs(value) <= VARIETY * aim.spreadMm[i]! ? 1 : 0));
    result[blade] = {
      ...target.grid,
      valuesMm,
      uMm,
      sure: Uint8Array.from(told, (yes, i) => (yes === 1 && own[i] === 0 ? 1 : 0)),
      withinVariety: Uint8Array.from(told, (yes, i) => (yes === 1 && own[i] === 1 ? 1 : 0)),
      thicknessMm: now.valuesMm,
      thicknessUMm: now.uMm,
    };
  }
  return result;
}
