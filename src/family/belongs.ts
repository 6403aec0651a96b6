import { expectedOf, pullOf } from './expect.ts';
import { stationsIn, type Stations } from './interpolation.ts';
import type { Predictive } from './predictive.ts';
import { toldBy, type ReadReed } from './read-reed.ts';

/** How a reed's readings go with what its maker's other reeds lead to expect. */
export interface Belonging {
  /** Squared distance of the readings from what was expected, by their number: about 1 for a reed of the family. */
  readonly ratio: number;
  /** Standard deviations above what reeds of the family reach. */
  readonly sds: number;
  readonly isOutside: boolean;
}

/** One reed of the family in 200 lies further out. */
export const OUTSIDE_SDS = 2.576;

/**
 * Whether a reed belongs to a family. The distance of n readings by a covariance that is known from so many reeds is
 * compared with F, since a normal's chi-square would call too many strange.
 *
 * Source: Paulson 1942, doi 10.1214/aoms/1177731608, for F as a normal, from memory.
 */
export function belongingOf(
  reed: ReadReed,
  predictive: Predictive,
  stations: Stations = stationsIn(predictive.frame, predictive.stations),
): Belonging {
  const told = toldBy(reed, stations);
  const thicknessMm = Float64Array.from(reed.readings, (reading) => reading.thicknessMm);
  const { distance } = pullOf(told, expectedOf(told, predictive), predictive.meanMm, thicknessMm);
  const n = thicknessMm.length;
  const ratio = distance / n;
  const sds = normalOfF(ratio, n, predictive.dof);
  return { ratio, sds, isOutside: sds > OUTSIDE_SDS };
}

/** The normal value that is exceeded as often as F with a and b degrees of freedom. */
export function normalOfF(f: number, a: number, b: number): number {
  const root = Math.cbrt(f);
  return (
    (root * (1 - 2 / (9 * b)) - (1 - 2 / (9 * a))) / Math.sqrt(2 / (9 * a) + (root * root * 2) / (9 * b))
  );
}
