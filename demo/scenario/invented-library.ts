import { inventedShapes } from './invented-cane.ts';
import { makeId, type Id } from '../../shared/ids.ts';
import { moment } from '../../shared/moment.ts';
import type { Reed } from '../../shared/reed.ts';
import type { NewDraft } from '../../src/ledger/drafts.ts';
import { normalPairs } from '../../src/numerics/normal-draws.ts';
import { seededRandom } from '../../src/numerics/seeded-random.ts';
import {
  airOfRoom,
  asideOf,
  earlierPasses,
  gaugeOfBench,
  piecesOf,
  type Aside,
  type EarlierPass,
} from './invented-lives.ts';
import { PLANTED, readingsOf, type InventedStyle as Style, type Nature } from './invented-surfaces.ts';

const DAY_MS = 86_400_000;
const invented = true as const;

const LOTS = ['R', 'T', 'V'] as const;

const scale = (value: number) => Math.min(5, Math.max(1, Math.round(value)));

const WIDTHS = [
  [0, 0.67],
  [8.2, 0.77],
  [12.2, 0.847],
  [15.2, 0.909],
  [18.2, 0.963],
  [21.2, 0.994],
  [23.2, 1],
] as const;

function endOf(random: () => number, normal: () => number) {
  const wornOut = 16 * Math.exp(0.35 * normal());
  const chipped = -60 * Math.log(1 - random());
  const cracked = -120 * Math.log(1 - random());
  const gone = -140 * Math.log(1 - random());
  const hours = Math.min(wornOut, chipped, cracked, gone);
  const cause = { [wornOut]: 'worn out', [chipped]: 'chipped', [cracked]: 'cracked', [gone]: 'given away' }[
    hours
  ]!;
  return { hours: Math.max(0.5, hours), cause: cause as NonNullable<Reed['retirement']>['cause'] };
}

type Draft<K extends NewDraft['kind']> = Extract<NewDraft, { kind: K }>;

/** Everything that one invented reed's documents are written from. */
interface Life {
  readonly reedId: Id;
  readonly label: string;
  readonly lotId: Id;
  readonly code: (typeof LOTS)[number];
  readonly style: Style;
  readonly nature: Nature;
  readonly daysAgo: number;
  /** Its slot in the case; absent for a reed that is retired. */
  readonly slot?: number;
  readonly fails: boolean;
  readonly end: ReturnType<typeof endOf>;
  /** The passes before the last one, newest first. */
  readonly earlier: readonly EarlierPass[];
}

/** Chance, and the calendar, that all documents share. */
interface World {
  readonly random: () => number;
  readonly normal: () => number;
  readonly at: (daysAgo: number) => string;
}

const IN_THE_CASE = 14;
/** So many of the newest reeds have lives of several passes, and their cane is known. */
const WITH_LIVES = 45;
const FAVOURITE_MERIT = 2.1;
const THREAD_MM = 47;
const OVERALL_MM: Readonly<Record<Style, number>> = { 'long-scrape': 70.2, 'short-scrape': 72.3 };
const meritOf = ({ blend, heart, luck }: Nature) => 0.8 * blend + 0.8 * heart + luck;

function verdictOf({ fails, nature }: Life) {
  if (fails) return 'no' as const;
  const step = Math.min(3, Math.max(0, Math.round(1.6 + 0.8 * meritOf(nature))));
  return (['not yet', 'practice', 'rehearsal', 'concert'] as const)[step]!;
}

function planformOf(style: Style) {
  const perMm = (OVERALL_MM[style] - THREAD_MM) / 23.2;
  return {
    widths: WIDTHS.map(([fromThreadMm, share]) => ({
      fromCorkMm: THREAD_MM + fromThreadMm * perMm,
      widthMm: 7 * share,
    })),
  };
}

function reedOf(life: Life, { random, at }: World): Draft<'reed'> {
  const { reedId, label, lotId, style, daysAgo, slot, fails, end, nature, earlier } = life;
  const isFavourite = !fails && meritOf(nature) > FAVOURITE_MERIT;
  const retirement = {
    on: at(Math.max(1, daysAgo - 30)).slice(0, 10),
    cause: fails ? ('never good' as const) : end.cause,
  };
  return {
    kind: 'reed',
    id: reedId,
    label,
    styleId: style,
    state: slot === undefined ? 'retired' : slot % 5 === 0 ? 'resting' : 'playing',
    lotId,
    tags: [...(random() < 0.2 ? ['tour'] : []), ...(random() < 0.15 ? ['soft cane'] : [])],
    tiedOn: at(daysAgo + 14).slice(0, 10),
    staple: { lengthMm: 47 },
    tie: { threadMm: THREAD_MM },
    planform: planformOf(style),
    ...(slot === undefined ? { retirement } : { slot }),
    ...(verdictOf(life) === 'concert' && { purpose: 'concert' }),
    ...(isFavourite && { favourite: { passIndex: earlier.length, since: at(daysAgo) } }),
    invented,
  };
}

const WORKED: Readonly<Record<Style, readonly string[]>> = {
  'long-scrape': ['tip', 'blend', 'heart', 'windows'],
  'short-scrape': ['tip', 'slope-upper', 'flanks'],
};

const placesOf = (zones: readonly string[], random: () => number) =>
  zones.map((zone) => ({
    zone,
    blade: 'both' as const,
    side: 'both' as const,
    strokes: 4 + Math.floor(random() * 20),
  }));

const minutesOf = (random: () => number) => 10 + Math.floor(random() * 15);

function passOf(life: Life, { random, normal, at }: World): Draft<'pass'> {
  const { reedId, style, nature, code, daysAgo, earlier } = life;
  const places = placesOf(WORKED[style], random);
  return {
    kind: 'pass',
    reedId,
    index: earlier.length,
    takenAt: at(daysAgo),
    overallLengthMm: OVERALL_MM[style],
    threadMm: THREAD_MM,
    gaugeStepMm: 0.01,
    wetness: 'wet',
    soakMin: 4,
    openingMm: Math.round((1 + 0.15 * normal()) * 20) / 20,
    scrape: { knife: 'bevelled', minutes: minutesOf(random), places },
    remedies: [],
    readings: readingsOf(style, nature, PLANTED.sideMm[code], normal),
    ...(earlier[0] && earlier[0].clipMm > 0 && { clipMm: earlier[0].clipMm }),
    invented,
  };
}

/** What the knife did in an earlier pass. */
function worked(next: Life['earlier'][number] | undefined, random: Aside['random']) {
  const minutes = minutesOf(random);
  return { scrape: { knife: 'bevelled', minutes, places: placesOf(next?.worked ?? ['tip'], random) } };
}

/** The passes before the last one, each with how the reed played after it. */
function before(life: Life, { normal, at, random }: Aside): NewDraft[] {
  const { reedId, style, nature, code, daysAgo, earlier } = life;
  let lengthMm = OVERALL_MM[style];
  return earlier.flatMap(({ daysBefore, before: left, clipMm, words }, k): NewDraft[] => {
    lengthMm += clipMm;
    const clipped = lengthMm - OVERALL_MM[style];
    const index = earlier.length - 1 - k;
    const next = earlier[k + 1];
    const facts = { reedId, takenAt: at(daysAgo + daysBefore), invented };
    return [
      {
        kind: 'pass',
        ...facts,
        index,
        overallLengthMm: Number(lengthMm.toFixed(2)),
        ...(next && next.clipMm > 0 && { clipMm: next.clipMm }),
        threadMm: THREAD_MM,
        gaugeStepMm: 0.01,
        wetness: 'wet',
        soakMin: 4,
        ...worked(next, random),
        remedies: [],
        readings: readingsOf(style, nature, PLANTED.sideMm[code], normal, (y, u) => left(y - clipped, u)),
      },
      {
        kind: 'trial',
        reedId,
        afterPass: index,
        playedAt: at(daysAgo + daysBefore - 0.2),
        pitchCents: [],
        verdict: 'not yet',
        words,
        invented,
      },
    ];
  });
}

/** What was heard of it: three scales follow the surfaces, two do not. */
function trialOf(life: Life, { normal, at }: World): Draft<'trial'> {
  const { blend, heart, back } = life.nature;
  return {
    kind: 'trial',
    reedId: life.reedId,
    afterPass: life.earlier.length,
    playedAt: at(life.daysAgo - 0.5),
    pitchCents: [],
    response: scale(3 + 0.9 * blend + 0.6 * normal()),
    stability: scale(3 + 0.9 * heart + 0.6 * normal()),
    dark: scale(3 - 0.9 * back + 0.6 * normal()),
    full: scale(3 + normal()),
    resistance: scale(3 + normal()),
    verdict: verdictOf(life),
    invented,
  };
}

function usesOf({ reedId, daysAgo, slot, fails, end }: Life, { random, normal, at }: World): Draft<'use'>[] {
  if (fails) return [];
  const hours = slot === undefined ? end.hours : Math.min(end.hours, 1 + 12 * random());
  const playings = Math.max(1, Math.ceil(hours / 3));
  return Array.from({ length: playings }, (_, k) => ({
    kind: 'use',
    reedId,
    at: at(Math.max(0.2, daysAgo - 2 - (k * 25) / playings)),
    minutes: Math.round((hours * 60) / playings),
    service: (['practice', 'rehearsal', 'concert'] as const)[Math.floor(random() * 3)]!,
    felt: scale(3 + normal()),
    invented,
  }));
}

function aroundOf({ at }: World): NewDraft[] {
  const hills = { temperatureC: 18, humidityPct: 25, elevationM: 1800 };
  return [
    {
      kind: 'air',
      at: at(0.1),
      place: 'invented room',
      temperatureC: 21,
      humidityPct: 48,
      elevationM: 200,
      invented,
    },
    { kind: 'engagement', title: 'an invented symphony', at: at(-6), wants: ['loud and long'], invented },
    {
      kind: 'engagement',
      title: 'an invented evening in the hills',
      at: at(-20),
      wants: ['intimate', 'high town'],
      ...hills,
      invented,
    },
  ];
}

/** The reeds of a library, oldest first, each with the documents of its own life. */
function livesOf(
  count: number,
  lotIds: readonly Id[],
  newId: () => Id,
  world: World,
  aside: Aside,
): (readonly [Life, Draft<'reed'>, NewDraft[]])[] {
  const { random, normal } = world;
  const numbers = LOTS.map(() => 0);
  return Array.from({ length: count }, (_, i) => {
    const lot = Math.floor(random() * LOTS.length);
    const [blend, heart, back, hand, side, luck] = [
      normal(),
      normal(),
      normal(),
      normal(),
      normal(),
      normal(),
    ];
    const style = random() < 0.75 ? ('long-scrape' as const) : ('short-scrape' as const);
    const inCase = i - (count - IN_THE_CASE);
    numbers[lot]! += 1;
    const life: Life = {
      reedId: newId(),
      label: `${LOTS[lot]!}-${String(numbers[lot]).padStart(3, '0')}`,
      lotId: lotIds[lot]!,
      code: LOTS[lot]!,
      style,
      nature: { blend, heart, back, hand, side, luck },
      daysAgo: Math.round(((count - i) / count) * 1400) + 3,
      ...(inCase >= 0 && { slot: inCase + 1 }),
      fails: style === 'long-scrape' && random() < (back < PLANTED.thinBack ? 0.75 : 0.05),
      end: endOf(random, normal),
      earlier: i >= count - WITH_LIVES ? earlierPasses(aside) : [],
    };
    const reed = reedOf(life, world);
    const own = [passOf(life, world), trialOf(life, world), ...usesOf(life, world)];
    return [life, reed, [...own, ...before(life, aside)]];
  });
}

/**
 * A whole working life of invented reeds, marked as invented: surfaces that vary in known ways, trials that follow some
 * of them, hours played and ends; the newest with their passes and their cane. The same seed gives the same library.
 */
export function inventedLibrary(now: Date, seed: number, count = 300): NewDraft[] {
  const random = seededRandom(seed);
  const normal = () => normalPairs(random, 1)[0]!;
  const idFrom = (chance: () => number): Id =>
    makeId(
      now.getTime(),
      Uint8Array.from({ length: 10 }, () => Math.floor(chance() * 256)),
    );
  const newId = () => idFrom(random);
  const world: World = {
    random,
    normal,
    at: (daysAgo) => moment(new Date(now.getTime() - daysAgo * DAY_MS)),
  };
  const aside = asideOf(seed, world.at, idFrom);
  const lotIds = LOTS.map(newId);
  const lots = LOTS.map((code, i): NewDraft => ({
    kind: 'lot',
    id: lotIds[i]!,
    code,
    source: 'invented',
    invented,
  }));
  const lives = livesOf(count, lotIds, newId, world, aside);
  const known = lives.slice(-WITH_LIVES).map(([life]) => life);
  const ofLot = (code: string) => known.filter((life) => life.code === code);
  const cane = LOTS.map((code, i) => piecesOf(lotIds[i]!, ofLot(code), aside));
  const around = [...airOfRoom(aside), gaugeOfBench(aside), ...aroundOf(world)];
  const { documents: shapes, shapeIds } = inventedShapes(aside.newId);
  const reeds = lives.flatMap(([{ label }, reed, documents]): NewDraft[] => {
    const pieceId = cane.map(({ pieceIds }) => pieceIds.get(label)).find(Boolean);
    const shapeId = shapeIds.get(reed.styleId);
    return [{ ...reed, ...(pieceId && { pieceId }), ...(shapeId && { shapeId }) }, ...documents];
  });
  return [...lots, ...cane.flatMap(({ documents }) => documents), ...shapes, ...reeds, ...around];
}
