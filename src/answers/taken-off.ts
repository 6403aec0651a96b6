import { BLADES, type Blade } from '../../shared/blade.ts';
import { largestPlace, measurable } from '../figures/measurable.ts';
import type { PassPair } from '../figures/pass-pair.ts';
import { patchesOf, patchPlaces, type Patch } from '../figures/patches.ts';
import { removalSpan, removedByZone, type RemovalSpan, type ZoneRemoval } from '../figures/removed.ts';
import { withOwnFactors, zonesThatLost } from '../figures/surely-lost.ts';
import { mapGrid, removedMap, type FigureMap } from '../figures/surface-map.ts';
import { mapWithUnread, unreadBetween } from '../figures/unread.ts';
import { zonesAt, type FiguredReed } from './fitted-reed.ts';
import { isInZone, type PlacedZone } from '../blade/zones.ts';

/** What came off one zone of each blade. */
export interface RemovalRow {
  readonly name: string;
  readonly title: string;
  readonly blades: Readonly<Partial<Record<Blade, ZoneRemoval>>>;
}

/** What came off by zone; zones are those of the later pass, and the two are laid on each other from the cork end. */
export interface RemovedByZone {
  readonly pair: PassPair;
  readonly rows: readonly RemovalRow[];
  /** Every zone of each blade that was read at all, those too that were not read both times. */
  readonly byZone: ReturnType<typeof removedByZone>;
  /** What each blade's removal is counted from; a blade that was not read has no figures. */
  readonly spans: Readonly<Partial<Record<Blade, RemovalSpan>>>;
}

/** A measurable loss, or growth, with its place. */
type LargestPlace = ReturnType<typeof largestPlace>;

export interface TakenOff extends RemovedByZone {
  readonly maps: Readonly<Partial<Record<Blade, FigureMap>>>;
  /** Zones that surely lost cane as wholes. */
  readonly lostZones: Readonly<Partial<Record<Blade, readonly PlacedZone[]>>>;
  /** 1 at the places of the maps that belong to a patch that surely lost cane, and are not told by themselves. */
  readonly between: Readonly<Partial<Record<Blade, Uint8Array>>>;
  /** Stretches that measurably lost cane, the largest loss first. */
  readonly patches: readonly Patch[];
  /** The largest measurable loss and the largest measurable growth of each blade. */
  readonly most: Readonly<Partial<Record<Blade, LargestPlace>>>;
  readonly growth: Readonly<Partial<Record<Blade, LargestPlace>>>;
  /** Where most of a zone's measurable loss went, on either blade; absent where nothing is measurable. */
  readonly mostOf: ReadonlyMap<string, LargestPlace & { readonly blade: Blade }>;
}

const ALONG = 61;
const ACROSS = 31;

const isKnown = ({ spans }: RemovedByZone, blade: Blade) =>
  spans[blade] !== undefined && !spans[blade].notRead;

/** What a pass took off since an earlier one by zone, without its maps. */
export function removedOff(
  { model: fitted, assembled }: FiguredReed,
  pair: PassPair,
  zones: readonly PlacedZone[],
): RemovedByZone {
  const model = fitted!;
  const spans = Object.fromEntries(
    BLADES.filter((blade) => model.blades[blade]).map((blade) => [blade, removalSpan(model, pair, blade)]),
  );
  const byZone = removedByZone(model, pair, zones, assembled.passes);
  const rows = zones.map(({ name, title }) => ({
    name,
    title,
    blades: Object.fromEntries(
      BLADES.flatMap((blade) => {
        const removal = spans[blade]?.notRead ? undefined : byZone[blade]?.get(name);
        return removal && !removal.notRead ? [[blade, removal]] : [];
      }),
    ),
  }));
  return { pair, rows, byZone, spans };
}

/** What a pass took off since an earlier one, on the later pass's blade and in its zones. */
export function takenOff(
  reed: FiguredReed,
  pair: PassPair,
  zones: readonly PlacedZone[] = zonesAt(reed, pair.after),
  removed: RemovedByZone = removedOff(reed, pair, zones),
): TakenOff {
  const { model, assembled } = reed;
  const maps: Partial<Record<Blade, FigureMap>> = {};
  const most: Partial<Record<Blade, LargestPlace>> = {};
  const growth: Partial<Record<Blade, LargestPlace>> = {};
  const lost: Partial<Record<Blade, Uint8Array>> = {};
  const between: Partial<Record<Blade, Uint8Array>> = {};
  const lostZones: Partial<Record<Blade, readonly PlacedZone[]>> = {};
  const patches: Patch[] = [];
  for (const blade of BLADES.filter((name) => isKnown(removed, name))) {
    const grid = mapGrid(model!.passes[pair.after]!.bladeLengthMm, ALONG, ACROSS);
    const unread = unreadBetween(assembled.passes, pair, blade);
    const whole = mapWithUnread(removedMap(model!, blade, pair.before, pair.after, grid), unread);
    const meanOf = (name: string) => removed.rows.find((row) => row.name === name)?.blades[blade]?.mean;
    const thatLost = zonesThatLost(zones, ({ name }) => meanOf(name));
    const map = withOwnFactors(whole, thatLost);
    [maps[blade], lostZones[blade]] = [map, thatLost];
    const sure = measurable(map);
    const only = (sign: 1 | -1) => ({
      ...map,
      valuesMm: map.valuesMm.map((value, i) => (sure[i] === 1 && sign * value > 0 ? sign * value : 0)),
    });
    const [loss, gain] = [largestPlace(only(1)), largestPlace(only(-1))];
    if (loss.valueMm > 0) most[blade] = loss;
    if (gain.valueMm > 0) growth[blade] = gain;
    const loses = sure.map((yes, i) => (yes === 1 && map.valuesMm[i]! > 0 ? 1 : 0));
    const patch = patchPlaces(map, loses, rowsRead(assembled, pair.after, blade));
    lost[blade] = loses;
    between[blade] = patch.map((yes, i) => yes - loses[i]!);
    patches.push(...patchesOf(model!, pair, blade, map, patch, unread));
  }
  const mostOf = new Map(
    zones.flatMap((zone) => {
      const place = mostWithin(zone, maps, lost);
      return place ? [[zone.name, place] as const] : [];
    }),
  );
  return { ...removed, maps, lostZones, between, patches, most, growth, mostOf };
}

/** Distances from the tip at which a pass read a blade, mm. */
function rowsRead({ passes }: FiguredReed['assembled'], pass: number, blade: Blade): number[] {
  const own = passes[pass]!.readings.filter((reading) => reading.blade === blade);
  return [...new Set(own.map(({ fromTipMm }) => fromTipMm))];
}

/** The largest measurable loss at the places of the maps that lie in a zone. */
function mostWithin(zone: PlacedZone, maps: TakenOff['maps'], lost: Partial<Record<Blade, Uint8Array>>) {
  const places = BLADES.flatMap((blade) => {
    const map = maps[blade];
    if (!map) return [];
    const columns = map.us.length;
    const inside = map.valuesMm.map((value, i) => {
      const [y, u] = [map.ysMm[Math.floor(i / columns)]!, map.us[i % columns]!];
      return lost[blade]?.[i] === 1 && isInZone(zone, y, u) ? value : 0;
    });
    return { blade, ...largestPlace({ ...map, valuesMm: inside }) };
  });
  return places.filter(({ valueMm }) => valueMm > 0).sort((a, b) => b.valueMm - a.valueMm)[0];
}
