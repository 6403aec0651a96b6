import { BLADES } from '../../shared/blade.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { placeZones } from '../blade/zones.ts';
import { centreLine, crossing, CROSSINGS_MM } from '../figures/crossing.ts';
import type { Estimate, PassGeometry } from '../surface/reed-model.ts';
import { excessOver, type ExcessMap } from './excess.ts';
import { otherMean } from './compare.ts';
import {
  LEAST_COVER,
  lessTarget,
  meanOverTarget,
  ownMean,
  zonePlaces,
  type WeightedPlace,
} from './place-means.ts';
import type { Target } from './target.ts';

/** A figure of a zone as it would be after a clip. */
export interface ClippedZone {
  readonly name: string;
  readonly title: string;
  readonly own: Estimate;
  /** Less the target; absent where that does not stand. */
  readonly difference: Estimate;
}

/** What a clip would make of a reed, before it is cut. */
export interface ClipPreview {
  readonly clipMm: number;
  readonly zones: readonly ClippedZone[];
  /** Where the centre would pass some thicknesses, from the new tip. */
  readonly crossings: readonly { readonly thicknessMm: number; readonly at?: Estimate }[];
  /** Means over both blades of what is over and of what is under the target. */
  readonly excess: Estimate;
  readonly lack: Estimate;
  /** The largest sure lack, at one place of the map; absent without one. */
  readonly worstLack?: Estimate;
  readonly maps: ReturnType<typeof excessOver>;
}

/** The blade's geometry after a clip: the same cane, read from the new tip. */
function clipped(geometry: PassGeometry, clipMm: number): PassGeometry {
  return {
    ...geometry,
    overallLengthMm: geometry.overallLengthMm - clipMm,
    bladeLengthMm: geometry.bladeLengthMm - clipMm,
    halfWidthMm: (y) => geometry.halfWidthMm(y + clipMm),
  };
}

/** @param clipMm 0 for the reed as it is. */
export function previewClip(own: ReedAtPass, target: Target, clipMm: number): ClipPreview {
  const { benched, pass } = own;
  const model = benched.model!;
  const geometry = clipped(model.passes[pass]!, clipMm);
  const { style, frame } = benched.assembled;
  const blades = BLADES.filter((blade) => model.blades[blade] && target.blades[blade]);
  const zones = placeZones(style, frame, geometry.overallLengthMm).flatMap((zone) => {
    const { places, share } = zonePlaces(target, zone, geometry, blades);
    if (share < LEAST_COVER) return [];
    const mine = ownMean(own, places, clipMm);
    const difference = lessTarget(mine, otherMean(own, target, zone.name, { places, share }));
    return [{ name: zone.name, title: zone.title, own: mine, difference }];
  });
  const crossings = CROSSINGS_MM.map((thicknessMm) => {
    const now = crossing(model, pass, centreLine(model), thicknessMm);
    const at = now && now.valueMm > clipMm && { valueMm: now.valueMm - clipMm, uMm: now.uMm };
    return { thicknessMm, ...(at && { at }) };
  });
  const maps = excessOver(model, pass, target, clipMm);
  const worst = worstLack(maps);
  return {
    clipMm,
    zones,
    crossings,
    excess: meanWhere(own, target, maps, clipMm, 1),
    lack: meanWhere(own, target, maps, clipMm, -1),
    ...(worst && { worstLack: worst }),
    maps,
  };
}

/**
 * Mean over all places of what is over (sign 1) or under (-1) the target; its doubt by the delta method, the places on
 * either side of the target taken as they are.
 */
function meanWhere(
  own: ReedAtPass,
  target: Target,
  maps: ClipPreview['maps'],
  clipMm: number,
  sign: 1 | -1,
): Estimate {
  const chosen: Omit<WeightedPlace, 'weight'>[] = [];
  let all = 0;
  for (const blade of BLADES) {
    const map: ExcessMap | undefined = maps[blade];
    map?.valuesMm.forEach((value, i) => {
      if (!Number.isFinite(value)) return;
      all += 1;
      if (sign * value > 0)
        chosen.push({
          blade,
          fromTipMm: map.ysMm[Math.floor(i / map.us.length)]!,
          across: map.us[i % map.us.length]!,
        });
    });
  }
  const places = chosen.map((place) => ({ ...place, weight: sign / all }));
  return places.length === 0 ? { valueMm: 0, uMm: 0 } : meanOverTarget(own, target, places, clipMm);
}

/**
 * The place that is furthest under the target among those where that is sure, with the doubt of that place. Being the
 * worst of many it lies a little further out than it truly is, which its doubt does not know.
 */
function worstLack(maps: ClipPreview['maps']): Estimate | undefined {
  let worst: Estimate | undefined;
  for (const { valuesMm, uMm, sure } of Object.values(maps))
    valuesMm.forEach((value, i) => {
      if (sure[i] === 1 && -value > (worst?.valueMm ?? 0)) worst = { valueMm: -value, uMm: uMm[i]! };
    });
  return worst;
}
