import { isInZone, type PlacedZone } from '../blade/zones.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import type { LotSides, ZoneHand } from './portrait.ts';
import { BACK_MM } from './reed-summary.ts';

/**
 * What the two halves of a blade differ by, laid on it: each half by how much more it has than the other, mm; `measurable`
 * is 1 where that can be told, and 0 elsewhere, where the value is 0 too.
 */
export interface HalvesMap extends MapGrid {
  readonly valuesMm: Float64Array;
  readonly measurable: Float64Array;
}

const ROWS = 81;
const COLUMNS = 33;
const LENGTH_MM = 20;

/** @param rightLess Right less left at a place, mm, by the right half's coordinates; undefined where nothing is told. */
function halvesOf(rightLess: (fromTipMm: number, across: number) => number | undefined): HalvesMap {
  const ysMm = Array.from({ length: ROWS }, (_, k) => (k * LENGTH_MM) / (ROWS - 1));
  const us = Array.from({ length: COLUMNS }, (_, k) => (2 * k) / (COLUMNS - 1) - 1);
  const told = ysMm.flatMap((y) => us.map((u) => rightLess(y, u)));
  const side = (k: number) => Math.sign(us[k % COLUMNS]!);
  return {
    ysMm,
    us,
    valuesMm: Float64Array.from(told, (mm, k) => side(k) * (mm ?? 0)),
    measurable: Float64Array.from(told, (mm, k) => (mm === undefined || side(k) === 0 ? 0 : 1)),
  };
}

/** What the hand does, zone by zone, where it can be told; a place of two zones goes with the first. */
export function handMap(hands: readonly ZoneHand[], placed: readonly PlacedZone[]): HalvesMap {
  return halvesOf((y, u) => {
    const zone = placed.find((one) => isInZone(one, y, u));
    const hand = hands.find(({ name }) => name === zone?.name);
    return hand?.told ? hand.mean : undefined;
  });
}

/** What a lot's sides do over the back, on blade A: side 1 is on its left. */
export function sidesMap({ mean, told }: Pick<LotSides, 'mean' | 'told'>): HalvesMap {
  const [from, to] = BACK_MM;
  return halvesOf((y) => (told && y >= from && y <= to ? -mean : undefined));
}
