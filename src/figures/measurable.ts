import type { FigureMap } from './surface-map.ts';

/** 1 where a map differs from zero by more than its simultaneous doubt. */
export function measurable(map: FigureMap): Uint8Array {
  return Uint8Array.from(map.valuesMm, (value, i) => (Math.abs(value) > map.factor(i) * map.uMm[i]! ? 1 : 0));
}

/** The place of the largest value of a map. */
export function largestPlace(map: Omit<FigureMap, 'factor'>): {
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
