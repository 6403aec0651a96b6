import { usualZeroUMm } from '../gauge/correct-readings.ts';

/**
 * Errors that all readings of a pass share. They do not average out: the mean of a zone stays as unsure as the zero,
 * while left against right is sure.
 */
export interface SharedErrorSizes {
  /** Zero of the gauge, mm. */
  readonly zeroMm: number;
  /** Swelling against the first pass, as a proportion. */
  readonly swelling: number;
  /** Distance from the tip against the first pass, mm. */
  readonly lengthMm: number;
}

/** Standard deviations for a careful maker. Common practice, no source. */
export function usualSharedErrors(stepMm: number): SharedErrorSizes {
  return { zeroMm: usualZeroUMm(stepMm), swelling: 0.005, lengthMm: 0.05 };
}

export const SHARED_PER_PASS = 3;

/**
 * Prior variances, three for each pass; the first pass defines wetness and length.
 *
 * @param zerosMm Zeros of single passes that are known otherwise than usually, one standard deviation.
 */
export function sharedVariances(
  passCount: number,
  sizes: SharedErrorSizes,
  zerosMm: readonly (number | undefined)[] = [],
): Float64Array {
  const variances = new Float64Array(SHARED_PER_PASS * passCount);
  for (let pass = 0; pass < passCount; pass++) {
    variances[SHARED_PER_PASS * pass] = (zerosMm[pass] ?? sizes.zeroMm) ** 2;
    if (pass === 0) continue;
    variances[SHARED_PER_PASS * pass + 1] = sizes.swelling ** 2;
    variances[SHARED_PER_PASS * pass + 2] = sizes.lengthMm ** 2;
  }
  return variances;
}

/** How one reading moves with its pass's shared errors: zero, swelling, length. */
export function sharedEffects(thicknessMm: number, slopeAlong: number): readonly [number, number, number] {
  return [1, thicknessMm, slopeAlong];
}
