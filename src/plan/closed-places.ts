import type { Blade } from '../../shared/blade.ts';
import { nearFloors, type StandingReading } from '../answers/standing-readings.ts';
import type { FittedReed } from '../answers/fitted-reed.ts';

/** Within one step of a usual dial above its floor a reading may be at it, mm. */
const STEP_MM = 0.0105;

/** A reading that closes its surroundings. */
export interface ClosedReading {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly reading: StandingReading;
  readonly floorMm: number;
}

/** Readings at or under their floors, whatever the surface says: no stroke goes near them. */
export function closedPlaces(benched: FittedReed, pass: number): ClosedReading[] {
  return nearFloors(benched, pass)
    .filter(({ marginMm }) => marginMm <= STEP_MM)
    .map(({ reading, floorMm }) => ({
      blade: reading.blade,
      fromTipMm: reading.fromTipMm,
      across: reading.across,
      reading,
      floorMm,
    }));
}
