import { mean } from 'd3-array';
import type { Station } from '../../shared/grid.ts';
import type { Id } from '../../shared/ids.ts';
import type { Question, Round } from '../../shared/round.ts';
import { OUTSIDE_SDS, STRANGE_SDS, strangeness } from '../family/belongs.ts';
import {
  afterReading,
  allRead,
  asking,
  choosePlaces,
  isEnough,
  surpriseOf,
  type Knowing,
  type PlaceRead,
} from '../family/choose-places.ts';
import { NOISE_FACTORS } from '../reed/assemble.ts';
import { COVERAGE } from '../words/format.ts';
import type { RoundState, StationState } from './fold-round.ts';
import { placeKey } from './place-words.ts';

/** What may be expected of a reed before it is read. Plain data. */
export interface Way {
  readonly knowing: Knowing;
  /** The maker's reeds that it was learned from, where it was. */
  readonly reeds?: number;
  /** What tells whether the reed belongs to them. */
  readonly family?: FamilyKnown;
}

export interface FamilyKnown {
  /** Degrees of freedom that its covariances rest on. */
  readonly dof: number;
  /** How other makers' reeds stray from it at the places: covariance, n x n, row by row, mm2. */
  readonly othersMm2: Float64Array;
}

/** What is known of a reed's places before its next pass is read. Plain data. */
export interface KnownPlaces {
  readonly places: readonly Station[];
  /** What may be expected; the last stands where the reed is unlike all that was learned. */
  readonly ways: readonly Way[];
  /** Titles of the zones of which the figures are. */
  readonly titles: readonly string[];
  /** Which of the figures each question asks for. */
  readonly questions: Readonly<Record<Question, readonly number[]>>;
}

/** A short round: places of which no more are asked for than it takes. */
export interface ShortRound {
  readonly question: Question;
  readonly places: readonly Station[];
  /** The last stands where the reed is unlike what was learned. */
  readonly ways: readonly PlannedWay[];
}

interface PlannedWay extends Way {
  /** Figures that the readings of every place would tell so surely as was asked; all, where none would be. */
  readonly within: readonly number[];
  /** Titles of the zones of the others. */
  readonly beyond: readonly string[];
  /** Variance that is enough of each figure. */
  readonly enoughMm2: Float64Array;
  /** Places that are asked for where nothing surprises; none where the way is only fallen back to. */
  readonly planned: readonly number[];
}

/** How a short round stands. Doubts are halves of 95 % intervals, mm. */
export interface ShortState {
  readonly question: Question;
  /** Every figure is known as well as was asked; else, where no place is left, none can be told better. */
  readonly isEnough: boolean;
  /** Places that were dealt with, and those that are to be, by their keys. */
  readonly asked: ReadonlySet<string>;
  /** Of all figures that can be told as surely as was asked, as a root mean square. */
  readonly doubtMm: number;
  /** Titles of the zones that cannot. */
  readonly beyond: readonly string[];
  /** Reeds that tell what is expected; absent where none do. */
  readonly reeds?: number;
  /** How many of the maker's others the reed is unlike, where it is. */
  readonly unlike?: number;
  /** The last reading, as it was expected, and the doubt before it. */
  readonly last?: LastRead & { readonly id: Id };
}

interface LastRead {
  readonly expectedMm: number;
  readonly uMm: number;
  readonly beforeMm: number;
}

/** Corners, and rails beyond the last column, no reading tells well: so much more than the doubt of all places is enough there. */
const OF_ALL_READ = 1.25;
/** Fewer readings tell only a reed that is very unlike the others. Tuned on invented makers. */
const LEAST = 12;
/** Doubts to choose from, halves of 95 % intervals, mm. */
export const DOUBTS_MM = [0.005, 0.0075, 0.01, 0.015, 0.02, 0.03] as const;

/** Variance that is enough of each figure. @param leastMm2 What the readings of every place would leave of it. */
const enoughOf = (leastMm2: Float64Array, doubtMm: number) =>
  leastMm2.map((mm2) => Math.max(wantedMm2(doubtMm), OF_ALL_READ ** 2 * mm2));

const wantedMm2 = (doubtMm: number) => (doubtMm / COVERAGE) ** 2;

/**
 * A plan for each doubt. What is enough for a smaller doubt is enough for a larger one, too: places chosen one after the
 * other are now and then fewer so.
 *
 * @param doubtsMm Rising.
 */
function plansTo(knowing: Knowing, leastMm2: Float64Array, doubtsMm: readonly number[]): number[][] {
  return doubtsMm.reduce<number[][]>((plans, doubtMm) => {
    const own = choosePlaces(knowing, enoughOf(leastMm2, doubtMm), { least: LEAST });
    const smaller = plans.at(-1);
    return [...plans, smaller && smaller.length < own.length ? smaller : own];
  }, []);
}

const shortestPlan = (knowing: Knowing, leastMm2: Float64Array, doubtMm: number) =>
  plansTo(knowing, leastMm2, [...DOUBTS_MM.filter((one) => one < doubtMm), doubtMm]).at(-1)!;

export function shortRound(
  { places, ways, titles, questions }: KnownPlaces,
  { question, doubtMm }: NonNullable<Round['short']>,
): ShortRound {
  return {
    ...{ question, places },
    ways: ways.map((way, k) => {
      const knowing = asking(way.knowing, questions[question]);
      const leastMm2 = allRead(knowing).askedMm2;
      const enoughMm2 = enoughOf(leastMm2, doubtMm);
      const isFallback = k > 0 && k === ways.length - 1;
      const planned = isFallback ? [] : shortestPlan(knowing, leastMm2, doubtMm);
      const all = Array.from(enoughMm2.keys());
      const told = all.filter((figure) => enoughMm2[figure] === wantedMm2(doubtMm));
      const within = told.length > 0 ? told : all;
      const beyond = all
        .filter((figure) => !within.includes(figure))
        .map((f) => titles[questions[question][f]!]!);
      return { ...way, knowing, enoughMm2, planned, within, beyond: [...new Set(beyond)] };
    }),
  };
}

/** What a short round may be asked, and how many places each doubt of `DOUBTS_MM` takes where nothing surprises. */
export interface ShortChoice {
  readonly question: Question;
  readonly counts: readonly number[];
}

export function shortChoices({ ways: [likeliest], questions }: KnownPlaces): ShortChoice[] {
  return (Object.keys(questions) as Question[])
    .filter((question) => questions[question].length > 0)
    .map((question) => {
      const knowing = asking(likeliest!.knowing, questions[question]);
      const leastMm2 = allRead(knowing).askedMm2;
      const plans = plansTo(knowing, leastMm2, DOUBTS_MM);
      return { question, counts: plans.map(({ length }) => length) };
    });
}

const doubtOf = ({ askedMm2 }: Knowing, { within }: PlannedWay) =>
  COVERAGE * Math.sqrt(mean(within, (figure) => askedMm2[figure]!) ?? 0);

/** What readings make of one way of expecting them. */
interface Told {
  readonly way: PlannedWay;
  readonly knowing: Knowing;
  /** Standard deviations above what reeds of the family reach. */
  readonly sds: number;
  readonly last?: LastRead;
}

function toldBy(way: PlannedWay, readings: readonly PlaceRead[]): Told {
  let { knowing } = way;
  let last: LastRead | undefined;
  for (const reading of readings) {
    const { expectedMm, uMm } = surpriseOf(knowing, reading);
    last = { expectedMm, uMm, beforeMm: doubtOf(knowing, way) };
    knowing = afterReading(knowing, reading);
  }
  return { way, knowing, sds: strangenessOf(way, readings), ...(last && { last }) };
}

/** How far readings lie outside the family by which a way expects them, in standard deviations; 0 where there is none. */
export function strangenessOf({ knowing, family }: Way, readings: readonly PlaceRead[]): number {
  const m = readings.length;
  if (!family || m === 0) return 0;
  const { meanMm, covariance, noiseMm2 } = knowing;
  const n = noiseMm2.length;
  const among = (of: Float64Array) =>
    Float64Array.from(
      { length: m * m },
      (_, k) => of[readings[Math.floor(k / m)]!.place * n + readings[k % m]!.place]!,
    );
  const expected = among(covariance);
  readings.forEach(({ place, share }, i) => (expected[i * (m + 1)]! += share * noiseMm2[place]!));
  const surprise = Float64Array.from(readings, ({ place, thicknessMm }) => thicknessMm - meanMm[place]!);
  return strangeness(surprise, expected, among(family.othersMm2), family.dof);
}

/**
 * How a short round stands after what was read: the places that it takes yet, by what the readings so far leave open. A
 * reed that is unlike what was learned is read by the usual prior from then on.
 *
 * @param lastId The reading that was taken last.
 */
export function shortState(
  { question, places, ways }: ShortRound,
  { stations }: Pick<RoundState, 'stations'>,
  lastId?: Id,
): ShortState {
  const numbers = new Map(places.map((place, k) => [placeKey(place), k]));
  const dealt = stations.filter(({ readings, skipped }) => readings.length > 0 || skipped);
  const isLast = ({ readings }: StationState) => readings.some(({ id }) => id === lastId);
  const inTurn = [...dealt.filter((one) => !isLast(one)), ...dealt.filter(isLast)];
  const read = inTurn.flatMap((one) => readAt(one, numbers.get(one.key)));
  const { told, unlike } = likeliest(
    ways.map((way) => toldBy(way, read)),
    read.length < LEAST ? STRANGE_SDS : OUTSIDE_SDS,
  );
  const { way, knowing, last } = told;
  const done = new Set(dealt.map(({ key }) => numbers.get(key)));
  const asked = new Set([...done, ...leftBy(told, done, read.length)]);
  return {
    question,
    isEnough: isEnough(knowing, way.enoughMm2),
    asked: new Set(places.filter((_, k) => asked.has(k)).map(placeKey)),
    doubtMm: doubtOf(knowing, way),
    beyond: way.beyond,
    ...(unlike === undefined ? way.reeds !== undefined && { reeds: way.reeds } : { unlike }),
    ...(last && lastId !== undefined && dealt.some(isLast) && { last: { id: lastId, ...last } }),
  };
}

/** The way that the readings are likest; the last where they are unlike all that was learned. */
function likeliest(
  all: readonly Told[],
  outsideSds: number,
): { readonly told: Told; readonly unlike?: number } {
  const learned = all.slice(0, -1);
  const usual = all.at(-1)!;
  if (learned.length === 0) return { told: usual };
  const nearest = learned.reduce((best, one) => (one.sds < best.sds ? one : best));
  return nearest.sds > outsideSds ? { told: usual, unlike: nearest.way.reeds! } : { told: nearest };
}

/** None where enough is known; first what was planned before the first reading, then what tells most now. */
function leftBy({ way, knowing }: Told, done: ReadonlySet<number | undefined>, nRead: number) {
  if (nRead >= LEAST && isEnough(knowing, way.enoughMm2)) return [];
  const isOpen = (place: number) => !done.has(place);
  const planned = way.planned.filter(isOpen);
  if (planned.length > 0) return planned;
  return choosePlaces(knowing, way.enoughMm2, { isOpen, least: LEAST - nRead });
}

function readAt({ readings, meanMm }: StationState, place: number | undefined): PlaceRead[] {
  if (place === undefined || meanMm === undefined) return [];
  const factor = Math.max(...readings.map(({ flag }) => NOISE_FACTORS[flag]));
  return [{ place, thicknessMm: meanMm, share: factor ** 2 / readings.length }];
}
