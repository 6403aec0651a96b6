import { normalQuantile } from '../numerics/normal-distribution.ts';
import type { FigureMap } from './surface-map.ts';

const LEVEL = 0.95;
/** Distance over which the doubt of a map hangs together, along and across. Rough, on the safe side. */
const PATCH_ALONG_MM = 2;
const PATCH_ACROSS = 0.4;

/**
 * Standard uncertainties that a difference must pass to be called measurable anywhere on a map, so that a map of pure
 * noise shows nothing 19 times in 20: as many independent places as the map has patches of related doubt.
 *
 * Source: Sidak 1967 for independent places.
 */
export function measurableFactor({ ysMm, us }: Pick<FigureMap, 'ysMm' | 'us'>): number {
  const along = Math.max(1, (ysMm.at(-1)! - ysMm[0]!) / PATCH_ALONG_MM);
  const across = Math.max(1, (us.at(-1)! - us[0]!) / PATCH_ACROSS);
  const each = LEVEL ** (1 / (along * across));
  return normalQuantile((1 + each) / 2);
}

/** 1 where a map differs from zero by more than its simultaneous doubt. */
export function measurable(map: FigureMap): Uint8Array {
  const factor = measurableFactor(map);
  return Uint8Array.from(map.valuesMm, (value, i) => (Math.abs(value) > factor * map.uMm[i]! ? 1 : 0));
}

/** The place of the largest value of a map. */
export function largestPlace(map: FigureMap): {
  fromTipMm: number;
  across: number;
  valueMm: number;
  uMm: number;
} {
  let at = 0;
  for (let i = 1; i < map.valuesMm.length; i++) if (map.valuesMm[i]! > map.valuesMm[at]!) at = i;
  const columns = map.us.length;
  return {
    fromTipMm: map.ysMm[Math.floor(at / columns)]!,
    across: map.us[at % columns]!,
    valueMm: map.valuesMm[at]!,
    uMm: map.uMm[at]!,
  };
}
