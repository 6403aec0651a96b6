import { BLADES, type Blade } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { passesRead, type ReedPosterior } from '../surface/reed-posterior.ts';
import type { Estimate, FitPass, Functional, ReedModel } from '../surface/reed-model.ts';
import { combine, estimate, pointFunctional } from './functional.ts';
import type { PassPair } from './pass-pair.ts';
import { MOSTLY_UNREAD, shareOver, unreadBetween, withUnread } from './unread.ts';
import { meanOver, zoneArea, type ZoneArea } from './zone-mean.ts';

/** Whether a blade's removal between two passes rests on readings at both ends; pass numbers as the maker counts. */
export interface RemovalSpan {
  /** The pass that read it last before, where the earlier one of the two did not: the removal is counted from there. */
  readonly since?: number;
  /** Nothing read it in between, or nothing before: the removal is not known, and expected to be none. */
  readonly notRead?: true;
  /** The next pass that read it: the removal is counted there. */
  readonly countedIn?: number;
}

/** What a blade's removal between two passes is counted from. */
export function removalSpan(
  { passes, records }: ReedPosterior,
  { before, after }: PassPair,
  blade: Blade,
): RemovalSpan {
  const read = passesRead({ records }, blade);
  const indexOf = (pass: number) => passes[pass]!.index;
  const last = read.filter((pass) => pass <= before).at(-1);
  if (last === undefined) return { notRead: true };
  if (read.some((pass) => pass > before && pass <= after))
    return last < before ? { since: indexOf(last) } : {};
  const next = read.find((pass) => pass > after);
  return { notRead: true, ...(next !== undefined && { countedIn: indexOf(next) }) };
}

/** Thickness before less thickness after at a place on the later pass's blade: positive where cane left. */
export function removedAt(
  model: ReedModel,
  pair: PassPair,
  blade: Blade,
  fromTipMm: number,
  across: number,
): Functional {
  return wentSince(pair.before, pointFunctional(model, { blade, pass: pair.after, fromTipMm, across }));
}

/** Mean removal over an area of the later pass's blade, or undefined for no area. */
export function meanRemovedOver(
  model: ReedModel,
  pair: PassPair,
  blade: Blade,
  area: ZoneArea,
): Functional | undefined {
  const later = meanOver(model, blade, pair.after, area);
  return later && wentSince(pair.before, later);
}

/** The same cane before, less a figure: weights of a place on the cane are the same after every pass. */
function wentSince(before: number, later: Functional): Functional {
  const earlier = Object.fromEntries(
    Object.entries(later).map(([blade, terms]) => [blade, terms.map((term) => ({ ...term, pass: before }))]),
  );
  return combine([
    [1, earlier],
    [-1, later],
  ]);
}

/** What a pass took from one zone of one blade. */
export interface ZoneRemoval {
  readonly mean: Estimate;
  readonly areaMm2: number;
  /** Mean removal times area, mm3, with its standard uncertainty. */
  readonly volumeMm3: number;
  readonly uMm3: number;
  /** Most of the zone was not read before, or not after. */
  readonly notRead?: true;
}

/**
 * Removal by zone for every blade that was read; zones are those of the later pass. What was not read may have lost cane
 * all the same, and that is in the doubt.
 *
 * @param passes The model's passes with their readings.
 */
export function removedByZone(
  model: ReedModel,
  pair: PassPair,
  zones: readonly PlacedZone[],
  passes: readonly FitPass[],
): Partial<Record<Blade, Map<string, ZoneRemoval>>> {
  const result: Partial<Record<Blade, Map<string, ZoneRemoval>>> = {};
  const areas = zones.map((zone) => ({ name: zone.name, area: zoneArea(zone, model.passes[pair.after]!) }));
  for (const blade of BLADES) {
    if (!model.blades[blade]) continue;
    const byZone = new Map<string, ZoneRemoval>();
    const unread = unreadBetween(passes, pair, blade);
    for (const { name, area } of areas) {
      const functional = meanRemovedOver(model, pair, blade, area);
      if (!functional) continue;
      const share = shareOver(area, unread);
      const mean = withUnread(estimate(model, functional), share);
      const { areaMm2 } = area;
      const volume = { volumeMm3: mean.valueMm * areaMm2, uMm3: mean.uMm * areaMm2 };
      byZone.set(name, { mean, areaMm2, ...volume, ...(share > MOSTLY_UNREAD && { notRead: true }) });
    }
    result[blade] = byZone;
  }
  return result;
}
