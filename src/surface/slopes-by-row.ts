import type { FitReading } from './reed-model.ts';

type Read = Pick<FitReading, 'fromTipMm' | 'thicknessMm'>;

/** The middle reading of each row, mm, by its distance from the tip; nearest first. */
export function middlesByRow(readings: readonly Read[]): Map<number, number> {
  const rows = [...new Set(readings.map(({ fromTipMm }) => fromTipMm))].sort((a, b) => a - b);
  return new Map(
    rows.map((row) => {
      const own = readings.filter(({ fromTipMm }) => fromTipMm === row).map(({ thicknessMm }) => thicknessMm);
      return [row, own.sort((a, b) => a - b)[own.length >> 1]!];
    }),
  );
}

/** How fast the thickness grows along at each distance, mm per mm, between the middle readings of the rows beside it. */
export function slopesByRow(readings: readonly Read[]): Map<number, number> {
  const middles = [...middlesByRow(readings)];
  return new Map(
    middles.map(([row], i) => {
      const before = middles[Math.max(0, i - 1)]!;
      const after = middles[Math.min(middles.length - 1, i + 1)]!;
      const apart = after[0] - before[0];
      return [row, apart > 0 ? (after[1] - before[1]) / apart : 0];
    }),
  );
}
