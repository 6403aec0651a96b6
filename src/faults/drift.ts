import type { ReadTwice } from '../reed/read-twice.ts';
import type { FitReading } from '../surface/reed-model.ts';
import type { Changes } from './scraping-likelihood.ts';
import { slopesByRow } from '../surface/slopes-by-row.ts';

/** A pass with the places that were read early in it and again late. */
export interface ReadPass {
  readonly readings: readonly FitReading[];
  readonly readTwice?: readonly ReadTwice[];
}

export type Noise = Readonly<Record<'seatingMm' | 'placementMm', number>>;

/** What places read twice grew by, after how much of the pass, with its standard deviation, mm. */
export interface Growth extends Pick<ReadTwice, 'grewMm' | 'apart'> {
  readonly uMm: number;
}

/** How steep the blade is says how far off a place is that is not met again. */
export function growthOf(
  { readings, readTwice = [] }: ReadPass,
  { seatingMm, placementMm }: Noise,
): Growth[] {
  if (readTwice.length === 0) return [];
  const slopes = slopesByRow(readings);
  return readTwice.map(({ fromTipMm, grewMm, apart }) => {
    const uMm = Math.SQRT2 * Math.hypot(seatingMm, placementMm * (slopes.get(fromTipMm) ?? 0));
    return { grewMm, apart, uMm };
  });
}

/** What is left of it when a drift is taken off. */
export function lessDrift(growth: readonly Growth[], driftMm: number): Changes {
  return {
    changeMm: Float64Array.from(growth, ({ grewMm, apart }) => grewMm - driftMm * apart),
    uMm: Float64Array.from(growth, ({ uMm }) => uMm),
  };
}
