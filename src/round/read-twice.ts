import { descending } from 'd3-array';
import type { Station } from '../../shared/grid.ts';
import { readingNoise, readingVariance, usualSeatingMm } from '../gauge/reading-noise.ts';
import { slopesByRow } from '../surface/slopes-by-row.ts';
import type { RoundState, StationState } from './fold-round.ts';

/** So many places tell a zero that crept from a slip of the hand. Common practice, no source. */
const PLACES = 3;
/** In fewer readings than these a zero has little time to creep. Common practice, no source. */
const FEWEST_READINGS = 20;
/** Two readings of a place further apart in a round than this share of it tell of its zero. Common practice, no source. */
const APART = 0.5;

/**
 * The places of a finished round whose second reading would tell most of a zero that crept while it was read: read early,
 * and where the blade is flat enough that the hand meets them again; one in a row, on the blade that was read first. None
 * in a short round, or where places were read again already.
 *
 * @param stepMm Step of the gauge.
 */
export function placesToReadAgain({ stations, nTaken }: RoundState, stepMm: number): readonly Station[] {
  const read = stations.filter(({ readings }) => readings.length > 0);
  const [first] = read;
  if (!first || nTaken < FEWEST_READINGS || isReadAgain(read)) return [];
  const own = read.filter(({ station }) => station.blade === first.station.blade);
  const slopes = slopesByRow(
    own.map(({ station, meanMm }) => ({ fromTipMm: station.fromTipMm, thicknessMm: meanMm! })),
  );
  const noise = readingNoise(usualSeatingMm(stepMm));
  const rows = new Map<number, { station: Station; told: number }>();
  for (const { station } of own) {
    const apart = 1 - read.findIndex((one) => one.station === station) / (read.length - 1);
    const told = apart ** 2 / readingVariance(noise, slopes.get(station.fromTipMm)!, 0);
    if (apart >= APART && told > (rows.get(station.fromTipMm)?.told ?? 0))
      rows.set(station.fromTipMm, { station, told });
  }
  const best = [...rows.values()].sort((a, b) => descending(a.told, b.told)).slice(0, PLACES);
  return best.length < PLACES ? [] : best.map(({ station }) => station);
}

/** Whether a place was read early in the round and again late. */
function isReadAgain(read: readonly StationState[]): boolean {
  const times = (state: StationState) => state.readings.map(({ seconds = 0 }) => seconds);
  const whole = Math.max(...read.flatMap(times));
  return read.some((state) => {
    const own = times(state);
    return own.length > 1 && Math.max(...own) - Math.min(...own) >= APART * whole;
  });
}
