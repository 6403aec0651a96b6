import type { Blade } from '../../shared/blade.ts';
import type { RoundState } from './fold-round.ts';

/**
 * The blade to which the reed is to be turned over: the next reading is the first of its blade, and the other blade is
 * dealt with. Undefined anywhere else, and where the round goes to and fro between the blades.
 */
export function bladeTurn({ stations, next }: RoundState): Blade | undefined {
  const here = next === undefined ? undefined : stations[next];
  if (!here) return undefined;
  const { blade } = here.station;
  const isDone = ({ readings, skipped }: (typeof stations)[number]) =>
    readings.length > 0 || skipped !== undefined;
  const others = stations.filter(({ station }) => station.blade !== blade);
  const isFirst = !stations.some((one) => one.station.blade === blade && isDone(one));
  return isFirst && others.length > 0 && others.every(isDone) ? blade : undefined;
}
