import { max, mean, min } from 'd3-array';
import type { Id } from '../../shared/ids.ts';
import type { Station } from '../../shared/grid.ts';
import type { Flag } from '../../shared/reading.ts';
import type { Act, Round } from '../../shared/round.ts';
import { inSequence, standingIds } from './in-force.ts';
import { placeKey } from './place-words.ts';

type TakenAct = Extract<Act, { act: 'taken' }>;
export type SkipReason = Extract<Act, { act: 'skipped' }>['reason'];

/** One reading that counts. */
export interface TakenReading {
  readonly id: Id;
  readonly thicknessMm: number;
  readonly flag: Flag;
  /** The maker was asked about it and said that it is as read. */
  readonly confirmed?: true;
  readonly method?: string;
  readonly seconds?: number;
  /** Who read it, in a class or workshop. */
  readonly by?: string;
}

/** What a round holds of one place. */
export interface StationState {
  readonly key: string;
  readonly station: Station;
  /** Asked for by the round; false for a place that the maker added. */
  readonly asked: boolean;
  /** Readings that count, in the order in which they were taken. */
  readonly readings: readonly TakenReading[];
  readonly meanMm?: number;
  /** Largest less smallest of two or more readings. */
  readonly spreadMm?: number;
  /** Why there is no reading. */
  readonly skipped?: SkipReason;
}

/** What a round holds, by folding its log. */
export interface RoundState {
  /** Asked stations in their order, then added ones in the order in which they were first read. */
  readonly stations: readonly StationState[];
  readonly byKey: ReadonlyMap<string, StationState>;
  /** Number of the station to be read next in `stations`; absent when all are read or skipped for good. */
  readonly next?: number;
  readonly nTaken: number;
  readonly nSkipped: number;
  readonly notes: readonly string[];
}

function reading(act: TakenAct, flag: Flag | undefined): TakenReading {
  const { id, thicknessMm, method, seconds, by } = act;
  return {
    id,
    thicknessMm,
    flag: flag ?? act.flag,
    ...(flag === 'ok' && { confirmed: true as const }),
    ...(method !== undefined && { method }),
    ...(seconds !== undefined && { seconds }),
    ...(by !== undefined && { by }),
  };
}

function summary(readings: readonly TakenReading[]): Pick<StationState, 'meanMm' | 'spreadMm'> {
  const values = readings.map(({ thicknessMm }) => thicknessMm);
  const [least, most, average] = [min(values), max(values), mean(values)];
  if (least === undefined || most === undefined || average === undefined) return {};
  return { meanMm: average, ...(values.length > 1 && { spreadMm: most - least }) };
}

function stationState(
  station: Station,
  asked: boolean,
  readings: readonly TakenReading[],
  skipped: SkipReason | undefined,
): StationState {
  return {
    key: placeKey(station),
    station,
    asked,
    readings,
    ...summary(readings),
    ...(skipped && readings.length === 0 && { skipped }),
  };
}

const isOpen = ({ readings, skipped }: StationState) => readings.length === 0 && skipped === undefined;

/** The first asked station neither read nor skipped; after those, the first put off till later. */
function nextOf(stations: readonly StationState[]): number | undefined {
  const first = stations.findIndex((state) => state.asked && isOpen(state));
  const next = first >= 0 ? first : stations.findIndex(({ skipped }) => skipped === 'later');
  return next >= 0 ? next : undefined;
}

/** Standing acts, sorted by what they say. A later act of the same kind about the same thing counts. */
function gather(acts: readonly Act[]) {
  const standing = standingIds(acts);
  const taken: TakenAct[] = [];
  const skipped = new Map<string, { station: Station; reason: SkipReason }>();
  const flags = new Map<Id, Flag>();
  const notes: string[] = [];
  for (const act of acts) {
    if (!standing.has(act.id)) continue;
    if (act.act === 'taken') taken.push(act);
    if (act.act === 'skipped') skipped.set(placeKey(act.station), act);
    if (act.act === 'flagged') flags.set(act.of, act.flag);
    if (act.act === 'noted') notes.push(act.text);
  }
  const replaced = new Set(taken.map(({ replaces }) => replaces));
  return { taken: taken.filter(({ id }) => !replaced.has(id)), skipped, flags, notes };
}

/**
 * Folds a round's log into what it holds. The result does not depend on the order in which acts arrive. A reading that
 * was replaced or withdrawn stays in the log and no longer counts; where there is a reading, a skip does not count.
 */
export function foldRound({ stations }: Pick<Round, 'stations'>, log: readonly Act[]): RoundState {
  const { taken, skipped, flags, notes } = gather(inSequence(log));
  const readings = new Map<string, TakenReading[]>();
  const places = new Map<string, Station>(stations.map((station) => [placeKey(station), station]));
  for (const act of taken) {
    const key = placeKey(act.station);
    if (!places.has(key)) places.set(key, act.station);
    const known = readings.get(key);
    if (known) known.push(reading(act, flags.get(act.id)));
    else readings.set(key, [reading(act, flags.get(act.id))]);
  }
  const states = [...places].map(([key, station], i) =>
    stationState(station, i < stations.length, readings.get(key) ?? [], skipped.get(key)?.reason),
  );
  const next = nextOf(states);
  return {
    stations: states,
    byKey: new Map(states.map((state) => [state.key, state])),
    ...(next !== undefined && { next }),
    nTaken: states.filter((state) => state.readings.length > 0).length,
    nSkipped: states.filter((state) => state.skipped !== undefined).length,
    notes,
  };
}
