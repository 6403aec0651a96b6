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

/** The readings with one station read anew, or cleared where there is no thickness; its repeats go with it. */
export function withReading(
  readings: readonly Reading[],
  blade: Blade,
  fromTipMm: number,
  across: number,
  thicknessMm: number | undefined,
): Reading[] {
  const at = readings.findIndex((reading) => isAt(reading, blade, fromTipMm, across));
  const others = readings.filter((reading) => !isAt(reading, blade, fromTipMm, across));
  if (thicknessMm === undefined) return others;
  const read: Reading = { blade, fromTipMm, across, thicknessMm, repeat: 0, flag: 'ok', role: 'station' };
  return at < 0 ? [...others, read] : [...others.slice(0, at), read, ...others.slice(at)];
}
