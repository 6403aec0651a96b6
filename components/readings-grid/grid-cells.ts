import type { Blade } from '../../shared/blade.ts';
import type { Reading } from '../../shared/reading.ts';

/** The stations that a grid offers: every distance with every position, on both blades. */
export interface GridShape {
  /** mm from the tip, rising. */
  readonly fromTipMm: readonly number[];
  /** Fractions of the half-width, rising. */
  readonly across: readonly number[];
}

const SAME = 1e-6;
const uniqueRising = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || value - all[i - 1]! > SAME);

/** A grid with the usual stations and those that were read besides. */
export function gridWith(usual: GridShape, readings: readonly Reading[]): GridShape {
  const stations = readings.filter(({ role }) => role === 'station');
  return {
    fromTipMm: uniqueRising([...usual.fromTipMm, ...stations.map(({ fromTipMm }) => fromTipMm)]),
    across: uniqueRising([...usual.across, ...stations.map(({ across }) => across)]),
  };
}

const isAt = (reading: Reading, blade: Blade, fromTipMm: number, across: number) =>
  reading.role === 'station' &&
  reading.blade === blade &&
  Math.abs(reading.fromTipMm - fromTipMm) < SAME &&
  Math.abs(reading.across - across) < SAME;

/** All readings of a station, repeats included. */
export function readingsAt(
  readings: readonly Reading[],
  blade: Blade,
  fromTipMm: number,
  across: number,
): Reading[] {
  return readings.filter((reading) => isAt(reading, blade, fromTipMm, across));
}

/** What is read at one station from now on: nothing when it was cleared. */
export interface StationChange {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
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

/** The readings after some changes; a station keeps its place in the order, a new one goes to the end. */
export function withChanges(readings: readonly Reading[], changes: readonly StationChange[]): Reading[] {
  return changes.reduce<Reading[]>(
    (all, { blade, fromTipMm, across, readings: now }) => {
      const at = all.findIndex((reading) => isAt(reading, blade, fromTipMm, across));
      const others = all.filter((reading) => !isAt(reading, blade, fromTipMm, across));
      return at < 0 ? [...others, ...now] : [...others.slice(0, at), ...now, ...others.slice(at)];
    },
    [...readings],
  );
}
