import type { Blade } from '../../shared/blade.ts';
import type { BladeMapData, MapMark } from '../../components/map/map-data.ts';

export const BLADE_LENGTH_MM = 24;
const READ_TO_MM = 20;
const US = Float64Array.from({ length: 21 }, (_, i) => -1 + i / 10);
const YS_MM = Float64Array.from({ length: 49 }, (_, j) => j / 2);

/** Thickness of an invented blade, mm: linear in both directions, so that grids and pictures show it exactly. */
export function inventedMm(fromTipMm: number, across: number): number {
  return 0.08 + 0.02 * fromTipMm + 0.03 * across;
}

export function halfWidthMm(fromTipMm: number): number {
  return 3.5 - 0.05 * fromTipMm;
}

const MARKS: readonly MapMark[] = [0.5, 1, 5, 10, 20].flatMap((fromTipMm) =>
  [-0.8, 0, 0.8].map((across) => ({ fromTipMm, across, valueMm: inventedMm(fromTipMm, across) })),
);

/** An invented blade, read to 20 of its 24 mm. */
export function inventedBlade(blade: Blade, value = inventedMm): BladeMapData {
  const values = Array.from(YS_MM).flatMap((y) =>
    Array.from(US, (u) => (y <= READ_TO_MM ? value(y, u) : NaN)),
  );
  return {
    blade,
    bladeLengthMm: BLADE_LENGTH_MM,
    ysMm: YS_MM,
    us: US,
    halfWidthMm: YS_MM.map(halfWidthMm),
    valuesMm: Float64Array.from(values),
    marks: MARKS.map((mark) => ({ ...mark, valueMm: value(mark.fromTipMm, mark.across) })),
    zones: [
      {
        name: 'tip',
        title: 'Tip',
        segments: [
          { hangsFrom: 'tip', points: [-1, 0, 1].map((across) => ({ fromTipMm: 4 - across ** 2, across })) },
          { hangsFrom: 'cane', points: [-1, 1].map((across) => ({ fromTipMm: 9, across })) },
        ],
      },
    ],
  };
}
