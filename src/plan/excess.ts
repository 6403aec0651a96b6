import { BLADES, type Blade } from '../../shared/blade.ts';
import { measurable } from '../figures/measurable.ts';
import { normalQuantile } from '../numerics/normal-distribution.ts';
import { thicknessMap, type FigureMap, type MapGrid } from '../figures/surface-map.ts';
import type { ReedModel } from '../surface/reed-model.ts';
import type { Target } from './target.ts';

/** A blade less its target. Positive is excess, which can be scraped; negative is lack, which cannot be put back. */
export interface TargetDifference extends FigureMap {
  /** Thickness now. */
  readonly thicknessMm: Float64Array;
  /** Its doubt alone, one standard uncertainty. */
  readonly thicknessUMm: Float64Array;
}

/** The same with what can be told of it. */
export interface ExcessMap extends TargetDifference {
  /** The difference by the largest that its doubt or the favourites' own spread could be: sure beyond -1 and +1. */
  readonly told: Float64Array;
  /** 1 where the difference is larger than its doubt and than the favourites' own spread. */
  readonly sure: Uint8Array;
  /** 1 where it is larger than its doubt, but within what the favourites differ by. */
  readonly withinVariety: Uint8Array;
}

/** Length and width of a patch that is scraped as one. Common practice, no source. */
const PATCH_ALONG_MM = 2;
const PATCH_ACROSS = 0.4;
const LEVEL = 0.95;

/**
 * Standard uncertainties by which a place must differ from a target to be scraped: such that of as many patches as the blade
 * has, looked at each in its middle, none differs by chance 19 times in 20. Less strict than a band for every place at once:
 * a step needs a good part of a zone besides, and takes half.
 *
 * Source: Sidak 1967 for independent places.
 */
function factorOfPatches({ ysMm, us }: MapGrid): number {
  const along = Math.max(1, (ysMm.at(-1)! - ysMm[0]!) / PATCH_ALONG_MM);
  const across = Math.max(1, (us.at(-1)! - us[0]!) / PATCH_ACROSS);
  return normalQuantile((1 + LEVEL ** (1 / (along * across))) / 2);
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
  const result: Partial<Record<Blade, ExcessMap>> = {};
  for (const blade of BLADES) {
    const map = differenceOn(model, blade, pass, target, clipMm);
    if (!map) continue;
    const { spreadMm } = target.blades[blade]!;
    const factor = map.factor();
    const told = map.valuesMm.map(
      (value, i) => value / Math.max(factor * map.uMm[i]!, VARIETY * spreadMm[i]!),
    );
    const sure = Uint8Array.from(told, (share) => (Math.abs(share) > 1 ? 1 : 0));
    const withinVariety = measurable(map).map((yes, i) => (yes === 1 && sure[i] === 0 ? 1 : 0));
    result[blade] = { ...map, told, sure, withinVariety };
  }
  return result;
}

/** Differences of the blades that were read from a target, without what can be told of them. */
export function differencesFrom(
  model: ReedModel,
  pass: number,
  target: Target,
  clipMm: number,
): TargetDifference[] {
  return BLADES.flatMap((blade) => differenceOn(model, blade, pass, target, clipMm) ?? []);
}

function differenceOn(
  model: ReedModel,
  blade: Blade,
  pass: number,
  target: Target,
  clipMm: number,
): TargetDifference | undefined {
  const aim = target.blades[blade];
  if (!aim || !model.blades[blade]) return undefined;
  const shifted: MapGrid = { ysMm: target.grid.ysMm.map((y) => y + clipMm), us: target.grid.us };
  const now = thicknessMap(model, blade, pass, shifted);
  return {
    ...target.grid,
    valuesMm: now.valuesMm.map((value, i) => value - aim.meanMm[i]!),
    uMm: now.uMm.map((u, i) => Math.hypot(u, aim.uMm[i]!)),
    factor: () => factorOfPatches(target.grid),
    thicknessMm: now.valuesMm,
    thicknessUMm: now.uMm,
  };
}
