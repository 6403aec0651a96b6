import { mean } from 'd3-array';
import type { Blade } from '../../shared/blade.ts';
import type { Flag, Reading } from '../../shared/reading.ts';

/** The stations that a grid offers: every distance with every position, on both blades. */
export interface GridShape {
  /** mm from the tip, rising. */
  readonly fromTipMm: readonly number[];
  /** Fractions of the half-width, rising. */
  readonly across: readonly number[];
}

/** A cell of the sheet. */
export interface Cell {
  readonly blade: Blade;
  readonly row: number;
  readonly column: number;
}

/** `A 3 2`: tells cells apart. */
export const cellText = ({ blade, row, column }: Cell) => `${blade} ${row} ${column}`;

interface OnBlade {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
}

const SAME = 1e-6;
const uniqueRising = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || value - all[i - 1]! > SAME);

/** A grid with some stations and those that were read besides; the same object where there are none. */
export function gridWith(usual: GridShape, readings: readonly Reading[]): GridShape {
  const [distances, positions] = [new Set(usual.fromTipMm), new Set(usual.across)];
  const stations = readings.filter(
    ({ role, fromTipMm, across }) =>
      role === 'station' && !(distances.has(fromTipMm) && positions.has(across)),
  );
  if (stations.length === 0) return usual;
  return {
    fromTipMm: uniqueRising([...usual.fromTipMm, ...stations.map(({ fromTipMm }) => fromTipMm)]),
    across: uniqueRising([...usual.across, ...stations.map(({ across }) => across)]),
  };
}

const PER_UNIT = 1e5;

/** Tells stations of a sheet apart. */
export function stationKey({ blade, fromTipMm, across }: OnBlade): string {
  return `${blade} ${Math.round(fromTipMm * PER_UNIT)} ${Math.round(across * PER_UNIT)}`;
}

const readingKeys = new WeakMap<Reading, string>();

/** The key of a reading's station, worked out once: with each key that is pressed all of a pass are asked for theirs. */
function keyOf(reading: Reading): string {
  const known = readingKeys.get(reading);
  if (known !== undefined) return known;
  const key = stationKey(reading);
  readingKeys.set(reading, key);
  return key;
}

/** The keys of a blade's stations, row by row. */
export function stationKeys(blade: Blade, { fromTipMm, across }: GridShape): string[][] {
  return fromTipMm.map((y) => across.map((u) => stationKey({ blade, fromTipMm: y, across: u })));
}

const isAlike = (a: Reading, b: Reading | undefined) =>
  a === b ||
  (b !== undefined &&
    keyOf(a) === keyOf(b) &&
    stateText([a]) === stateText([b]) &&
    a.repeat === b.repeat &&
    a.role === b.role);

/** Whether a sheet has to be drawn anew for these readings: the same ones come back when they have been kept. */
export function areOther(now: readonly Reading[], before: readonly Reading[] | undefined): boolean {
  return now.length !== before?.length || now.some((reading, i) => !isAlike(reading, before[i]));
}

/** All readings of each station, repeats in their order. */
export function byStation(readings: readonly Reading[]): ReadonlyMap<string, readonly Reading[]> {
  const stations = new Map<string, Reading[]>();
  for (const reading of readings) {
    if (reading.role !== 'station') continue;
    const key = keyOf(reading);
    const known = stations.get(key);
    if (known) known.push(reading);
    else stations.set(key, [reading]);
  }
  return stations;
}

/** What a station holds, as one text to compare. */
export function stateText(readings: readonly Reading[] = []): string {
  return readings.map(({ thicknessMm, flag }) => `${thicknessMm} ${flag}`).join();
}

/** Mean of a station's readings, mm; undefined where nothing was read. */
export function meanMm(readings: readonly Reading[]): number | undefined {
  return mean(readings, ({ thicknessMm }) => thicknessMm);
}

/** What is read at one station from now on: nothing when it was cleared. */
export interface StationChange extends OnBlade {
  readonly readings: readonly Reading[];
}

/** A station read once. */
export function readOnce(
  blade: Blade,
  fromTipMm: number,
  across: number,
  thicknessMm: number | undefined,
): StationChange {
  const place = { blade, fromTipMm, across };
  const about = { repeat: 0, flag: 'ok', role: 'station' } as const;
  return { ...place, readings: thicknessMm === undefined ? [] : [{ ...place, ...about, thicknessMm }] };
}

/** A station read once more: all its readings are kept. */
export function readAgain(place: OnBlade, before: readonly Reading[], thicknessMm: number): StationChange {
  const { blade, fromTipMm, across } = place;
  const kept = before.filter((reading) => reading.thicknessMm !== undefined);
  const [once] = readOnce(blade, fromTipMm, across, thicknessMm).readings;
  const repeat = Math.max(-1, ...kept.map((reading) => reading.repeat)) + 1;
  return { blade, fromTipMm, across, readings: [...kept, { ...once!, repeat }] };
}

/** A station marked: its readings keep their thickness, except where there was nothing to read. */
export function marked(
  { blade, fromTipMm, across }: OnBlade,
  before: readonly Reading[],
  flag: Flag,
): StationChange {
  const place = { blade, fromTipMm, across };
  if (flag === 'no-cane' || flag === 'wire')
    return { ...place, readings: [{ ...place, repeat: 0, flag, role: 'station' }] };
  const read = before.filter(({ thicknessMm }) => thicknessMm !== undefined);
  return { ...place, readings: read.map((reading) => ({ ...reading, flag })) };
}

/** The readings after some changes; a station keeps its place in the order, a new one goes to the end. */
export function withChanges(readings: readonly Reading[], changes: readonly StationChange[]): Reading[] {
  const now = new Map(changes.map((change) => [stationKey(change), change.readings]));
  const placed = new Set<string>();
  const all: Reading[] = [];
  for (const reading of readings) {
    const key = reading.role === 'station' ? keyOf(reading) : '';
    const changed = now.get(key);
    if (!changed) all.push(reading);
    else if (!placed.has(key)) all.push(...changed);
    if (changed) placed.add(key);
  }
  for (const [key, changed] of now) if (!placed.has(key)) all.push(...changed);
  return all;
}
