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

/**
 * Standard deviations for a careful maker. A zero repeats within 0.002 to 0.005 mm on a dial of 0.01 mm, which is about
 * three of its standard deviations, and within less on a finer gauge. Common practice, no source.
 */
export function usualSharedErrors(stepMm: number): SharedErrorSizes {
  return { zeroMm: 0.0005 + 0.1 * stepMm, swelling: 0.005, lengthMm: 0.05 };
}

export const SHARED_PER_PASS = 3;

/** Prior variances, three for each pass; the first pass defines wetness and length. */
export function sharedVariances(passCount: number, sizes: SharedErrorSizes): Float64Array {
  const variances = new Float64Array(SHARED_PER_PASS * passCount);
  for (let pass = 0; pass < passCount; pass++) {
    variances[SHARED_PER_PASS * pass] = sizes.zeroMm ** 2;
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
