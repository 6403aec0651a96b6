import { groups } from 'd3-array';
import type { Place } from '../../shared/blade.ts';
import type { ReadThickness } from './corrected-readings.ts';

/** A place that was read early in a pass and again late. */
export interface ReadTwice extends Place {
  /** The last reading less the first, mm. */
  readonly grewMm: number;
  /** How much of the pass lies between the two, 0 to 1. */
  readonly apart: number;
}

/** Nearer in time than this share of a pass, two readings are repeats, and say nothing of drift. Common practice, no source. */
const LEAST_APART = 0.3;

/** The places of a pass that were read early and again late, stations and controls alike. */
export function placesReadTwice(readings: readonly ReadThickness[]): ReadTwice[] {
  const places = groups(readings, ({ blade, fromTipMm, across }) => `${blade} ${fromTipMm} ${across}`);
  return places.flatMap(([, same]) => {
    const inTime = [...same].sort((a, b) => a.time - b.time);
    const [first, last] = [inTime[0]!, inTime.at(-1)!];
    const apart = last.time - first.time;
    if (apart < LEAST_APART) return [];
    const { blade, fromTipMm, across } = first;
    return [{ blade, fromTipMm, across, grewMm: last.thicknessMm - first.thicknessMm, apart }];
  });
}
