import type { Place } from '../../shared/blade.ts';

/** Where the tip ends and the heart begins, and how thick both are, mm. Invented. */
const BLEND_MM = 6;
const AT_TIP_MM = 0.09;
const PER_MM_OF_TIP = 0.065;
const AT_HEART_MM = 0.47;
const PER_MM_OF_BACK = 0.006;
/** The edges are this share thinner than the middle. Invented. */
const THINNER_AT_EDGE = 0.25;

/** An invented blade's thickness at a place, mm: a wedge of a tip, a slowly thickening back, thinner to the edges. */
export function inventedThicknessMm({ fromTipMm, across }: Place): number {
  const middle =
    fromTipMm < BLEND_MM
      ? AT_TIP_MM + PER_MM_OF_TIP * fromTipMm
      : AT_HEART_MM + PER_MM_OF_BACK * (fromTipMm - BLEND_MM);
  return middle * (1 - THINNER_AT_EDGE * Math.abs(across));
}
