import type { Reading } from '../../shared/reading.ts';
import { INVENTED_READINGS } from './invented-readings.ts';

const POSITIONS = [-0.8, -0.4, 0, 0.4, 0.8];

/**
 * What is planted in the invented library, so that a check can ask for it back. Thickness in mm: `hand` is right less
 * left on both blades, `side` is side 1 less side 2 over the back by lot.
 */
export const PLANTED = {
  /** A blend further from the tip goes with quicker response, a thicker heart with stability, thinner windows with depth. */
  relations: [
    { figure: 'blend-place', outcome: 'response', sign: 1 },
    { figure: 'heart', outcome: 'stability', sign: 1 },
    { figure: 'windows', outcome: 'dark', sign: -1 },
  ],
  /** Nothing in the surfaces has to do with these. */
  unrelated: ['resistance', 'full'],
  handMm: { 'heart-sides': -0.015, corners: -0.004 },
  sideMm: { R: 0.03, T: 0, V: 0 },
  /** Of long scrapes with a back thinner than this, in standard deviations, three in four fail; of others one in twenty. */
  thinBack: -1,
} as const;

/** Standard deviations of what one reed differs from the next by. */
const SPREAD = { blendMm: 0.3, heartMm: 0.012, backMm: 0.016, lotSideMm: 0.004, handMm: 0.004, readingMm: 0.006 };
/** Mean of both blades and sides at each distance and position of an invented reed, mm. */
function baseOf(label: string): (fromTipMm: number, across: number) => number {
  const rows = INVENTED_READINGS[label]![0]!.trim()
    .split('\n')
    .map((row) => row.split('|').map((part) => part.trim()))
    .map(([y, a, b]) => {
      const cells = [a!, b!].map((blade) => blade.split(' ').map(Number));
      const even = POSITIONS.map((_, i) => cells.reduce((sum, c) => sum + c[i]! + c[4 - i]!, 0) / 400);
      return { y: Number(y), even };
    });
  return (fromTipMm, across) => {
    const column = POSITIONS.indexOf(across);
    const next = Math.max(1, rows.findIndex(({ y }) => y >= fromTipMm));
    const [low, high] = [rows[next - 1]!, rows[next]!];
    const share = Math.min(1, Math.max(0, (fromTipMm - low.y) / (high.y - low.y)));
    return low.even[column]! + share * (high.even[column]! - low.even[column]!);
  };
}
const BASES = { 'long-scrape': baseOf('K-117'), 'short-scrape': baseOf('S-026') };
export type InventedStyle = keyof typeof BASES;
const DISTANCES = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];

/** 0 before `from`, 1 after `to`, straight between. */
const rise = (y: number, from: number, to: number) => Math.min(1, Math.max(0, (y - from) / (to - from)));
/** What one reed is, in standard deviations from the usual one. */
export interface Nature {
  readonly blend: number;
  readonly heart: number;
  readonly back: number;
  readonly hand: number;
  readonly side: number;
  readonly luck: number;
}

/** Cane that was still there before later passes, mm. */
export type Before = (fromTipMm: number, across: number) => number;

/**
 * Readings of both blades, rounded to hundredths.
 *
 * @param normal Standard normal numbers for the gauge's scatter.
 * @param before Cane that later passes took.
 */
export function readingsOf(
  style: InventedStyle,
  nature: Nature,
  sideMm: number,
  normal: () => number,
  before: Before = () => 0,
): Reading[] {
  const base = BASES[style];
  return (['A', 'B'] as const).flatMap((blade) =>
    DISTANCES.flatMap((y) =>
      POSITIONS.map((across): Reading => {
        const shift = nature.blend * SPREAD.blendMm * rise(y, 1, 3) * (1 - rise(y, 6, 9));
        const hand = PLANTED.handMm.corners + (PLANTED.handMm['heart-sides'] - PLANTED.handMm.corners) * rise(y, 1, 7);
        const thickness =
          base(Math.max(0.5, y - shift), across) +
          nature.heart * SPREAD.heartMm * rise(y, 4, 6) * (1 - rise(y, 9, 11)) +
          nature.back * SPREAD.backMm * rise(y, 8, 11) * (1 - rise(y, 18, 20)) +
          (across / 1.6) * (hand + nature.hand * SPREAD.handMm) +
          (blade === 'A' ? -1 : 1) * across * (sideMm + nature.side * SPREAD.lotSideMm) * rise(y, 3, 6) +
          before(y, across) +
          normal() * SPREAD.readingMm;
        return {
          blade,
          fromTipMm: y,
          across,
          thicknessMm: Math.max(0.03, Math.round(thickness * 100) / 100),
          repeat: 0,
          flag: 'ok',
          role: 'station',
        };
      }),
    ),
  );
}
