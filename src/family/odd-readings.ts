import { leaveOneOut } from '../numerics/leave-one-out.ts';
import { expectedOf, pullOf } from './expect.ts';
import { stationsIn, type Stations } from './interpolation.ts';
import type { Predictive } from './predictive.ts';
import { toldBy, type ReadReed } from './read-reed.ts';

/** A reading beside what the maker's other reeds and its own reed's other readings lead to expect. */
export interface LeftOut {
  /** Its place in the reed's list. */
  readonly at: number;
  /** Read less expected, mm, and its standard deviation. */
  readonly offMm: number;
  readonly uMm: number;
}

/** Every reading as all others of the reed and the family lead to expect it. */
export function leftOut(
  reed: ReadReed,
  predictive: Predictive,
  stations: Stations = stationsIn(predictive.frame, predictive.stations),
): LeftOut[] {
  const told = toldBy(reed, stations);
  const thicknessMm = Float64Array.from(reed.readings, (reading) => reading.thicknessMm);
  const expected = expectedOf(told, predictive);
  const { byReading } = pullOf(told, expected, predictive.meanMm, thicknessMm);
  return leaveOneOut(expected.inverse, byReading).map(({ off, u }, at) => ({ at, offMm: off, uMm: u }));
}
