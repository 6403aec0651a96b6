import { BLADES, type Blade } from '../../shared/blade.ts';
import { largestPlace, measurable } from '../figures/measurable.ts';
import {
  removalSpan,
  removedByZone,
  type PassPair,
  type RemovalSpan,
  type ZoneRemoval,
} from '../figures/removed.ts';
import { mapGrid, removedMap, type FigureMap } from '../figures/surface-map.ts';
import { mapWithUnread, unreadBetween } from '../figures/unread.ts';
import { zonesAt, type BenchedReed, type FiguredReed } from './benched-reed.ts';
import { amountText, bareAmount, numberText, withUnit, type Writing } from '../words/format.ts';
import { acrossWords, isMeasurable, listed, placeWords } from '../words/figure-words.ts';
import { sayRemovalSpan } from './span-words.ts';
import { isInZone, type PlacedZone } from '../blade/zones.ts';
import { placeOnBlade, type Answer } from './answer-words.ts';

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
  /** What each blade's removal is counted from; a blade that was not read has no figures. */
  readonly spans: Readonly<Partial<Record<Blade, RemovalSpan>>>;
}

/** A measurable loss, or growth, with its place. */
type LargestPlace = ReturnType<typeof largestPlace>;

export interface TakenOff extends RemovedByZone {
  readonly maps: Readonly<Partial<Record<Blade, FigureMap>>>;
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
  return { pair, rows, spans };
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
  for (const blade of BLADES.filter((name) => isKnown(removed, name))) {
    const grid = mapGrid(model!.passes[pair.after]!.bladeLengthMm, ALONG, ACROSS);
    const unread = unreadBetween(assembled.passes, pair, blade);
    const map = mapWithUnread(removedMap(model!, blade, pair.before, pair.after, grid), unread);
    maps[blade] = map;
    const sure = measurable(map);
    const only = (sign: 1 | -1) => ({
      ...map,
      valuesMm: map.valuesMm.map((value, i) => (sure[i] === 1 && sign * value > 0 ? sign * value : 0)),
    });
    const [loss, gain] = [largestPlace(only(1)), largestPlace(only(-1))];
    if (loss.valueMm > 0) most[blade] = loss;
    if (gain.valueMm > 0) growth[blade] = gain;
  }
  const mostOf = new Map(
    zones.flatMap((zone) => {
      const place = mostWithin(zone, maps);
      return place ? [[zone.name, place] as const] : [];
    }),
  );
  return { ...removed, maps, most, growth, mostOf };
}

/** The largest measurable loss at the places of the maps that lie in a zone. */
function mostWithin(zone: PlacedZone, maps: TakenOff['maps']) {
  const places = BLADES.flatMap((blade) => {
    const map = maps[blade];
    if (!map) return [];
    const sure = measurable(map);
    const columns = map.us.length;
    const inside = map.valuesMm.map((value, i) => {
      const [y, u] = [map.ysMm[Math.floor(i / columns)]!, map.us[i % columns]!];
      return sure[i] === 1 && isInZone(zone, y, u) ? value : 0;
    });
    return { blade, ...largestPlace({ ...map, valuesMm: inside }) };
  });
  return places.filter(({ valueMm }) => valueMm > 0).sort((a, b) => b.valueMm - a.valueMm)[0];
}

/** Less than this is not worth a word in the sentence, mm. */
const WORTH_SAYING_MM = 0.004;

interface ZoneLoss {
  readonly name: string;
  readonly title: string;
  readonly meanMm: number;
}

/** Zones that measurably lost cane, on one blade or both, the most first. */
function losses({ rows }: TakenOff): ZoneLoss[] {
  return rows
    .flatMap(({ name, title, blades }) => {
      const sure = BLADES.flatMap((blade) => {
        const mean = blades[blade]?.mean;
        return mean && isMeasurable(mean) && mean.valueMm > WORTH_SAYING_MM ? [mean.valueMm] : [];
      });
      if (sure.length === 0) return [];
      return [{ name, title, meanMm: sure.reduce((sum, value) => sum + value, 0) / sure.length }];
    })
    .sort((a, b) => b.meanMm - a.meanMm);
}

/** The answer to "What did I just take?" */
export function sayTakenOff(benched: BenchedReed, taken: TakenOff, writing: Writing): Answer {
  const { index } = benched.assembled.passes[taken.pair.after]!;
  const largest = losses(taken).slice(0, 3);
  const amounts = largest.map(
    ({ title, meanMm }, i) =>
      `${(i === 0 ? amountText : bareAmount)(meanMm, writing)} from the ${title.toLowerCase()}`,
  );
  const mind = sayGrowth(taken, writing) ?? sayMost(benched, taken, writing);
  const spans = BLADES.flatMap((blade) => sayRemovalSpan(blade, taken.spans[blade] ?? {}, index) ?? []);
  const aside = [...spans, sayNotRead(benched, taken, writing) ?? []].flat().join(' ');
  return {
    say:
      largest.length === 0
        ? `Pass ${index} took nothing that can be told from the doubt of the readings.`
        : `Pass ${index} took about ${listed(amounts)}${wasMeant(benched, taken, largest) ? ', as meant' : ''}.`,
    ...(mind && { mind }),
    ...(aside && { aside }),
  };
}

/** Whether the strokes that were written down were in these zones. */
function wasMeant({ passes }: BenchedReed, { pair }: TakenOff, zones: readonly ZoneLoss[]): boolean {
  const meant = (passes[pair.after]?.scrape?.places ?? []).map(({ zone }) => zone.toLowerCase());
  return zones.every(({ name, title }) => meant.includes(name) || meant.includes(title.toLowerCase()));
}

/** A place lost this many times what its zone did before it is pointed out. */
const STANDS_OUT = 2;

function sayMost(benched: BenchedReed, taken: TakenOff, writing: Writing): string | undefined {
  const zones = zonesAt(benched, taken.pair.after);
  const places = BLADES.flatMap((blade) => {
    const at = taken.most[blade];
    return at ? [{ blade, at }] : [];
  }).sort((a, b) => b.at.valueMm - a.at.valueMm);
  const [first] = places;
  if (!first) return undefined;
  const { blade, at } = first;
  const zone = zones.find((one) => isInZone(one, at.fromTipMm, at.across));
  const mean = zone && taken.rows.find(({ name }) => name === zone.name)?.blades[blade]?.mean.valueMm;
  if (mean !== undefined && at.valueMm < STANDS_OUT * mean) return undefined;
  const where = placeOnBlade(zones, blade, at.fromTipMm, at.across);
  const longMm = lengthAlong(taken.maps[blade]!, at);
  return `${where} lost ${bareAmount(at.valueMm, writing)} at ${placeWords(at.fromTipMm, writing)}, in one place ${withUnit(numberText(longMm, 0, writing), 'mm')} long.`;
}

/** Length of the stretch along the blade on which a map stays above half its value at a place, mm. */
function lengthAlong(
  { ysMm, us, valuesMm }: FigureMap,
  at: { fromTipMm: number; across: number; valueMm: number },
) {
  const column = us.indexOf(at.across);
  const inside = ysMm.filter((_, row) => valuesMm[row * us.length + column]! > at.valueMm / 2);
  const step = ysMm[1]! - ysMm[0]!;
  const next = (y: number, way: 1 | -1) =>
    inside.find((other) => Math.abs(other - y - way * step) < step / 2);
  let [low, high] = [at.fromTipMm, at.fromTipMm];
  for (let y = next(low, -1); y !== undefined; y = next(low, -1)) low = y;
  for (let y = next(high, 1); y !== undefined; y = next(high, 1)) high = y;
  return Math.max(step, high - low);
}

function sayGrowth({ growth }: TakenOff, writing: Writing): string | undefined {
  const words = BLADES.flatMap((blade) => {
    const at = growth[blade];
    if (!at) return [];
    return `${blade} reads ${amountText(at.valueMm, writing)} thicker at ${placeWords(at.fromTipMm, writing)}, ${acrossWords(at.across)}`;
  });
  return words.length > 0
    ? `${listed(words)}. Cane does not grow: look for a fault in the readings.`
    : undefined;
}

/** A stretch of the blade shorter than this is not worth mentioning as unread, mm. */
const UNREAD_MM = 1.5;

function sayNotRead({ assembled }: BenchedReed, { pair }: TakenOff, writing: Writing): string | undefined {
  const furthest = (at: number) => {
    const { readings, overallLengthMm } = assembled.passes[at]!;
    const toAfter = assembled.passes[pair.after]!.overallLengthMm - overallLengthMm;
    return Math.max(...readings.map(({ fromTipMm }) => fromTipMm + toAfter));
  };
  const [before, after] = [furthest(pair.before), furthest(pair.after)];
  const [shorter, at] = before < after ? [before, pair.before] : [after, pair.after];
  if (!Number.isFinite(shorter) || Math.abs(before - after) < UNREAD_MM) return undefined;
  return `Below ${placeWords(shorter, writing)} pass ${assembled.passes[at]!.index} was not read.`;
}
