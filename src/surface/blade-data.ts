import type { Blade } from '../../shared/blade.ts';
import type { FitPass, FitReading } from './reed-model.ts';

/** A reading with its place on the cane and its pass. */
export interface CaneReading {
  readonly reading: FitReading;
  /** Place of its pass in the list of passes. */
  readonly pass: number;
  /** mm from the cork end. */
  readonly zMm: number;
}

export function caneReadings(passes: readonly FitPass[], blade: Blade): CaneReading[] {
  return passes.flatMap((pass, at) =>
    pass.readings
      .filter((reading) => reading.blade === blade)
      .map((reading) => ({ reading, pass: at, zMm: pass.overallLengthMm - reading.fromTipMm })),
  );
}

/** The stretch of cane that any pass reaches, mm from the cork end. */
export function caneSpan(passes: readonly FitPass[]): { fromZMm: number; toZMm: number } {
  const lowest = passes.map(({ overallLengthMm, bladeLengthMm, readings }) =>
    Math.min(
      overallLengthMm - bladeLengthMm,
      ...readings.map(({ fromTipMm }) => overallLengthMm - fromTipMm),
    ),
  );
  const highest = passes.map(({ overallLengthMm, readings }) =>
    Math.max(overallLengthMm, ...readings.map(({ fromTipMm }) => overallLengthMm - fromTipMm)),
  );
  return { fromZMm: Math.min(...lowest), toZMm: Math.max(...highest) };
}

const FEWEST_ROWS_FOR_RIDGE = 5;

/** Where tip turns into heart, mm from the cork end, and how steeply, mm per mm. */
export interface SteepestPlace {
  readonly zMm: number;
  readonly rise: number;
}

/**
 * The middle of the steepest step between the mean readings of neighbouring distances in one pass; undefined with too few
 * distances.
 */
export function steepestPlace(
  readings: readonly { readonly zMm: number; readonly thicknessMm: number }[],
): SteepestPlace | undefined {
  const rows = new Map<number, { sum: number; count: number }>();
  for (const { thicknessMm, zMm } of readings) {
    const row = rows.get(zMm) ?? { sum: 0, count: 0 };
    rows.set(zMm, { sum: row.sum + thicknessMm, count: row.count + 1 });
  }
  const means = [...rows]
    .map(([zMm, { sum, count }]) => ({ zMm, mean: sum / count }))
    .sort((a, b) => b.zMm - a.zMm);
  if (means.length < FEWEST_ROWS_FOR_RIDGE) return undefined;
  let best: SteepestPlace | undefined;
  means.slice(1).forEach((row, i) => {
    const before = means[i]!;
    const rise = (row.mean - before.mean) / (before.zMm - row.zMm);
    if (!best || rise > best.rise) best = { rise, zMm: (before.zMm + row.zMm) / 2 };
  });
  return best;
}
