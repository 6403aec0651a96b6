import type { FitReading } from './reed-model.ts';

/** How fast the thickness grows along at each distance, mm per mm, between the middle readings of the rows beside it. */
export function slopesByRow(
  readings: readonly Pick<FitReading, 'fromTipMm' | 'thicknessMm'>[],
): Map<number, number> {
  const rows = [...new Set(readings.map(({ fromTipMm }) => fromTipMm))].sort((a, b) => a - b);
  const middles = rows.map((row) => {
    const own = readings.filter(({ fromTipMm }) => fromTipMm === row).map(({ thicknessMm }) => thicknessMm);
    return own.sort((a, b) => a - b)[own.length >> 1]!;
  });
  return new Map(
    rows.map((row, i) => {
      const [before, after] = [Math.max(0, i - 1), Math.min(rows.length - 1, i + 1)];
      const apart = rows[after]! - rows[before]!;
      return [row, apart > 0 ? (middles[after]! - middles[before]!) / apart : 0];
    }),
  );
}
