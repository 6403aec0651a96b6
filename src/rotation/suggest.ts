import type { Reed } from '../../shared/reed.ts';
import type { AirReading, Engagement } from '../../shared/room.ts';
import { airChange, preparations } from '../climate/travel.ts';
import type { InRotation } from './in-rotation.ts';
import type { Lasting } from './lifetimes.ts';
import { quantityText, type NumberFormat } from '../words/format.ts';

type Want = Engagement['wants'][number];

/** One reed for an engagement, with what speaks for it and what against. Never a score. */
export interface Suggestion {
  readonly row: InRotation;
  readonly speaksFor: readonly string[];
  readonly speaksAgainst: readonly string[];
}

/** What to play, what to make ready, and what the journey does to reeds. */
export interface Advice {
  /** The best founded first. */
  readonly play: readonly Suggestion[];
  /** Whole days until then; negative when it is past. */
  readonly days: number;
  /** What to make ready, when no reed is a safe choice. */
  readonly makeReady?: string;
  readonly journey: readonly string[];
}

interface Said {
  readonly words: string;
  readonly for: boolean;
}
type Rule = (row: InRotation) => Said | undefined;

const yes = (words: string): Said => ({ words, for: true });
const no = (words: string): Said => ({ words, for: false });
const among = (
  value: number | undefined,
  good: (v: number) => boolean,
  bad: (v: number) => boolean,
  words: [string, string],
) => (value === undefined ? undefined : good(value) ? yes(words[0]) : bad(value) ? no(words[1]) : undefined);

/**
 * What each wish asks of a reed. Common practice, no source: schools differ, and the maker may well know better.
 */
const WISHES: Readonly<Record<Want, readonly Rule[]>> = {
  'loud and long': [
    ({ heard }) =>
      among(
        heard.stability,
        (v) => v >= 4,
        (v) => v <= 2,
        ['holds its notes', 'notes sag'],
      ),
    ({ heard }) =>
      among(
        heard.resistance,
        (v) => v === 3 || v === 4,
        (v) => v === 1,
        ['stands up to being pushed', 'too little resistance to be pushed'],
      ),
  ],
  intimate: [
    ({ heard }) =>
      among(
        heard.response,
        (v) => v >= 4,
        (v) => v <= 2,
        ['speaks softly', 'slow to speak'],
      ),
    ({ heard }) =>
      among(
        heard.resistance,
        (v) => v <= 2,
        (v) => v >= 4,
        ['easy to play soft', 'hard to play soft'],
      ),
  ],
  'dry hall': [
    ({ heard }) =>
      among(
        heard.openingMm,
        (v) => v >= 1,
        (v) => v < 0.8,
        ['open enough for dry air', 'closed already, and dry air closes it more'],
      ),
  ],
  'damp hall': [
    ({ heard }) =>
      among(
        heard.resistance,
        (v) => v <= 3,
        (v) => v >= 4,
        ['light enough to swell', 'heavy, and damp air makes it heavier'],
      ),
  ],
  'high town': [
    ({ heard }) =>
      among(
        heard.resistance,
        (v) => v <= 2,
        (v) => v >= 4,
        ['light, as high places want it', 'stiff, and height makes it stiffer'],
      ),
  ],
  'cold church': [
    ({ heard }) =>
      among(
        heard.pitchCents?.at(-1)?.cents,
        (v) => v > 0,
        (v) => v < -5,
        ['a little sharp, which the cold takes back', 'flat already, and cold makes it flatter'],
      ),
  ],
};

/** Hours in which a reed is being played in, and after which one counts on little more. Common practice, no source. */
const PLAYED_IN_HOURS = 2;
const USUAL_HOURS = 15;
export const EVENING_HOURS = 3;

function ageRule(lasting: Lasting, decimal: Pick<NumberFormat, 'decimal'>): Rule {
  const inHours = (hours: number) => quantityText('hours', hours, decimal);
  const known = lasting.medianHours !== undefined;
  const most = lasting.medianHours ?? USUAL_HOURS;
  const span = known ? `half of your reeds last ${inHours(most)}` : `reeds often last ${most}\u00a0h`;
  return ({ hours }) => {
    if (hours < PLAYED_IN_HOURS) return no(`hardly played in: ${inHours(hours)}`);
    if (hours + EVENING_HOURS > most) return no(`${inHours(hours)} played; ${span}`);
    return yes(`played in, ${inHours(hours)}`);
  };
}

const verdictRule: Rule = ({ heard }) => {
  if (heard.verdict === 'concert') return yes('last called a concert reed');
  if (heard.verdict === 'not yet') return no('last called not ready');
  return heard.verdict === 'practice' ? no('last called a practice reed') : undefined;
};

const purposeRule: Rule = ({ bestFor }) =>
  bestFor && bestFor.by !== 'verdict' && /concert|record|perform/i.test(bestFor.words)
    ? yes(`best for ${bestFor.words}`)
    : undefined;

const wholeDays = (from: string, to: string) => Math.floor((Date.parse(to) - Date.parse(from)) / 86_400_000);
/** From the rough scrape until a reed is played in, days. Common practice, no source. */
const DAYS_TO_FINISH = 10;

function toMakeReady(play: readonly Suggestion[], others: readonly Reed[], days: number): string | undefined {
  if (play.some(({ speaksFor, speaksAgainst }) => speaksFor.length > 0 && speaksAgainst.length === 0))
    return undefined;
  const next =
    others.find(({ state }) => state === 'scraping') ?? others.find(({ state }) => state === 'blank');
  const start = next ? `go on with ${next.label}` : 'open a blank';
  return days >= DAYS_TO_FINISH
    ? `No reed is a safe choice. There are ${days} days: ${start}, it takes about ${DAYS_TO_FINISH} from the rough scrape until it is played in.`
    : `No reed is a safe choice, and ${days} days are short for a new reed: play in the likeliest one, and keep a second at hand.`;
}

export interface ForAdvice {
  readonly rotation: readonly InRotation[];
  readonly reeds: readonly Reed[];
  readonly lasting: Lasting;
  /** The newest air at home, where it was read. */
  readonly here?: AirReading;
  readonly now: string;
  readonly writing: Pick<NumberFormat, 'decimal'>;
}

function journey(
  { temperatureC, humidityPct, elevationM }: Engagement,
  here: AirReading | undefined,
): string[] {
  if (!here || here.temperatureC === undefined || here.humidityPct === undefined) return [];
  if (temperatureC === undefined && humidityPct === undefined && elevationM === undefined) return [];
  const home = {
    temperatureC: here.temperatureC,
    humidityPct: here.humidityPct,
    elevationM: here.elevationM ?? 0,
  };
  const there = {
    temperatureC: temperatureC ?? home.temperatureC,
    humidityPct: humidityPct ?? home.humidityPct,
    elevationM: elevationM ?? home.elevationM,
  };
  return preparations(airChange(home, there));
}

/** What to play at an engagement, with reasons; a reed whose last verdict is "no" is left out. */
export function adviceFor(
  engagement: Engagement,
  { rotation, reeds, lasting, here, now, writing }: ForAdvice,
): Advice {
  const rules = [
    verdictRule,
    purposeRule,
    ageRule(lasting, writing),
    ...engagement.wants.flatMap((want) => WISHES[want]),
  ];
  const play = rotation
    .filter(({ heard, reed }) => heard.verdict !== 'no' && reed.state !== 'scraping')
    .map((row): Suggestion => {
      const said = rules.flatMap((rule) => rule(row) ?? []);
      const words = (wanted: boolean) => [
        ...new Set(said.filter((one) => one.for === wanted).map((one) => one.words)),
      ];
      return { row, speaksFor: words(true), speaksAgainst: words(false) };
    })
    .sort((a, b) => balance(b) - balance(a) || a.row.hours - b.row.hours);
  const days = wholeDays(now, engagement.at);
  const makeReady =
    days < 0
      ? undefined
      : toMakeReady(
          play,
          reeds.filter(({ state }) => state !== 'retired'),
          days,
        );
  return { play, days, ...(makeReady && { makeReady }), journey: journey(engagement, here) };
}

const balance = ({ speaksFor, speaksAgainst }: Suggestion) => speaksFor.length - speaksAgainst.length;
