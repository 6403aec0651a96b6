import { isInZone, type PlacedZone } from '../blade/zones.ts';
import { normalQuantile } from '../numerics/normal-distribution.ts';
import type { Estimate } from '../surface/reed-model.ts';
import type { FigureMap, PartedMap } from './surface-map.ts';

/** How often a zone of a map that lost nothing is said to have lost cane, all zones together. */
const ZONES_MISS = 0.01;
/** What holds at all places of a zone at once: cane only leaves, so that one side of 95 % counts. */
const WITHIN_LEVEL = 0.9;

/** Zones that surely lost cane as wholes: one side of their doubt, and all zones of the map together. */
export function zonesThatLost(
  zones: readonly PlacedZone[],
  meanOf: (zone: PlacedZone) => Estimate | undefined,
): PlacedZone[] {
  const means = zones.flatMap((zone) => {
    const mean = meanOf(zone);
    return mean ? [{ zone, mean }] : [];
  });
  const factor = normalQuantile(1 - ZONES_MISS / Math.max(1, means.length));
  return means.filter(({ mean }) => mean.valueMm > factor * mean.uMm).map(({ zone }) => zone);
}

/**
 * A removal's map in which a place is told from none by as many standard uncertainties as hold over the whole map at once,
 * and where cane went in a zone that surely lost some, by as many as hold over that zone.
 */
export function withOwnFactors(map: PartedMap, lost: readonly PlacedZone[]): FigureMap {
  if (lost.length === 0) return map;
  const factors = new Float64Array(map.valuesMm.length).fill(map.factor());
  for (const zone of lost) {
    const inside = (fromTipMm: number, across: number) => isInZone(zone, fromTipMm, across);
    const own = map.factorOver(inside, WITHIN_LEVEL);
    factors.forEach((factor, i) => {
      const [y, u] = [map.ysMm[Math.floor(i / map.us.length)]!, map.us[i % map.us.length]!];
      if (own < factor && map.valuesMm[i]! > 0 && inside(y, u)) factors[i] = own;
    });
  }
  return { ...map, factor: (place) => (place === undefined ? map.factor() : factors[place]!) };
}
