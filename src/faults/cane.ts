import { caneState, type CaneState } from './cane-state.ts';
import type { Cane } from './explanation.ts';
import type { CaneReading, KnownCane } from './known-cane.ts';

/** The readings of a pass where and as they truly were, as far as is known. */
export interface ExplainedPass {
  readonly stations: readonly CaneReading[];
  readonly controls: readonly CaneReading[];
  readonly soakMin?: number;
}

/** Controls as near as this are of the same place. */
const SAME_PLACE = { alongMm: 1, across: 0.25 };

/**
 * What some passes together tell of the cane.
 *
 * @param known Of their stations.
 */
export function caneOf(passes: readonly ExplainedPass[], known: KnownCane): Cane {
  const soaks = passes.flatMap(({ soakMin }) => soakMin ?? []);
  return {
    stations: caneState(known),
    controls: untouched(passes.flatMap(({ controls }) => controls)),
    ...(soaks.length > 0 && { soakMin: soaks.reduce((a, b) => a + b) / soaks.length }),
  };
}

/** Untouched cane is as thick as all its readings together say. */
function untouched(earlier: readonly CaneReading[]): CaneState {
  return (blade, across, zMm) => {
    const same = earlier.filter(
      (reading) =>
        reading.blade === blade &&
        Math.abs(reading.zMm - zMm) <= SAME_PLACE.alongMm &&
        Math.abs(reading.across - across) <= SAME_PLACE.across,
    );
    if (same.length === 0) return undefined;
    const n = same.length;
    const mm = same.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / n;
    const uMm = Math.sqrt(same.reduce((sum, { seatingMm }) => sum + seatingMm ** 2, 0)) / n;
    return { fromMm: zMm, mm: Float64Array.of(mm, mm), uMm: Float64Array.of(uMm, uMm), hull: [zMm, zMm] };
  };
}
