import { BLADES, type Blade } from '../../shared/blade.ts';
import type { Strokes } from '../../shared/pass.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { combine, estimate } from '../figures/functional.ts';
import { largestPlace, measurable } from '../figures/measurable.ts';
import { meanRemovedOver } from '../figures/removed.ts';
import { zoneArea } from '../figures/zone-mean.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { zonesAt, type FittedReed } from './fitted-reed.ts';
import { listed } from '../words/figure-words.ts';
import type { TakenOff } from './taken-off.ts';
import { isInZone } from '../blade/zones.ts';

/** What came off where the knife was not meant to go. */
export interface OutsideMeant {
  /** Over the zones, or halves of zones, that were not written down, mm3. */
  readonly volumeMm3: number;
  readonly uMm3: number;
  /** Over all zones, mm3. */
  readonly allMm3: number;
  /** Where most went outside; absent where nothing there is measurable. */
  readonly most?: Estimate & { readonly blade: Blade; readonly fromTipMm: number; readonly across: number };
}

type Side = 'left' | 'right';
const SIDES: readonly Side[] = ['left', 'right'];

const isZone = ({ name, title }: Pick<PlacedZone, 'name' | 'title'>, word: string) =>
  [name, title.toLowerCase()].includes(word.toLowerCase());

/** Whether strokes were written down for this half of a zone. */
function wasMeant(places: readonly Strokes[], zone: PlacedZone, blade: Blade, side: Side): boolean {
  return places.some(
    (place) =>
      isZone(zone, place.zone) &&
      (place.blade === 'both' || place.blade === blade) &&
      (place.side === 'both' || place.side === side),
  );
}

/**
 * What a pass took outside the places that were written down for it.
 *
 * @returns The reason in a sentence where it cannot be told.
 */
export function outsideMeant(benched: FittedReed, taken: TakenOff): OutsideMeant | string {
  const { pair } = taken;
  const places = benched.passes[pair.after]?.scrape?.places ?? [];
  if (pair.after - pair.before !== 1)
    return 'Strokes are written down for one pass: choose two that follow each other.';
  if (places.length === 0) return 'No strokes are written down for this pass.';
  const zones = zonesAt(benched, pair.after);
  const unknown = places.filter(({ zone: word }) => !zones.some((zone) => isZone(zone, word)));
  if (unknown.length > 0)
    return `It cannot be told where this is: ${listed(unknown.map(({ zone }) => `“${zone}”`))}. Write the name of a zone.`;
  const most = mostOutside(zones, places, taken.maps);
  return { ...volumes(benched, taken, zones, places), ...(most && { most }) };
}

function volumes(
  benched: FittedReed,
  { pair }: TakenOff,
  zones: readonly PlacedZone[],
  places: readonly Strokes[],
) {
  const model = benched.model!;
  const halves = zones.flatMap((zone) =>
    SIDES.flatMap((side) => {
      const area = zoneArea(zone, model.passes[pair.after]!, side);
      return BLADES.filter((blade) => model.blades[blade]).flatMap((blade) => {
        const mean = meanRemovedOver(model, pair, blade, area);
        return mean
          ? [{ meant: wasMeant(places, zone, blade, side), term: [area.areaMm2, mean] as const }]
          : [];
      });
    }),
  );
  const sum = (chosen: typeof halves) => estimate(model, combine(chosen.map(({ term }) => term)));
  const outside = sum(halves.filter(({ meant }) => !meant));
  return { volumeMm3: outside.valueMm, uMm3: outside.uMm, allMm3: sum(halves).valueMm };
}

function mostOutside(
  zones: readonly PlacedZone[],
  places: readonly Strokes[],
  maps: TakenOff['maps'],
): OutsideMeant['most'] {
  const found = BLADES.flatMap((blade) => {
    const map = maps[blade];
    if (!map) return [];
    const meant = SIDES.map((side) => zones.filter((zone) => wasMeant(places, zone, blade, side)));
    const sure = measurable(map);
    const columns = map.us.length;
    const outside = map.valuesMm.map((value, i) => {
      const [y, u] = [map.ysMm[Math.floor(i / columns)]!, map.us[i % columns]!];
      const isMeant = meant[u < 0 ? 0 : 1]!.some((zone) => isInZone(zone, y, u));
      return sure[i] === 1 && !isMeant ? value : 0;
    });
    return { blade, ...largestPlace({ ...map, valuesMm: outside }) };
  });
  return found.filter(({ valueMm }) => valueMm > 0).sort((a, b) => b.valueMm - a.valueMm)[0];
}
