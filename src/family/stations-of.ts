import type { Station } from '../surface/learned-prior.ts';
import { placeKey } from './interpolation.ts';
import type { ReadReed } from './read-reed.ts';

/** So many places are told apart at most: more cost time, and a blade has no more of its own. */
const MOST = 75;
/** A place that fewer of the reeds read is reached from those about it. */
const FEWEST_SHARE = 0.25;

/** The places at which a family is learned: those that most of the reeds read, on either blade. */
export function stationsOf(reeds: readonly ReadReed[]): Station[] {
  const counts = new Map<string, { station: Station; reeds: number }>();
  for (const { readings } of reeds) {
    const own = new Map(
      readings.map(({ fromTipMm, across }) => [placeKey({ fromTipMm, across }), { fromTipMm, across }]),
    );
    for (const [key, station] of own) counts.set(key, { station, reeds: (counts.get(key)?.reeds ?? 0) + 1 });
  }
  const byUse = [...counts.values()].sort((a, b) => b.reeds - a.reeds);
  const often = byUse.filter(({ reeds: count }) => count >= FEWEST_SHARE * reeds.length).slice(0, MOST);
  return often.map(({ station }) => station).sort((a, b) => a.fromTipMm - b.fromTipMm || a.across - b.across);
}
