import type { Held } from './hold-lowest.ts';

/** Nearer the tip than this the ball dents wet cane, and the lowest value is a dent. Common practice, no source. */
const SOFT_TIP_MM = 3;

/** What is to be taken from a gauge that sends all the time. */
export interface HeldValue {
  readonly thicknessMm: number;
  /** How it was come by; absent where it is what the gauge shows. */
  readonly method?: 'lowest';
}

/**
 * The value to take at a distance from the tip: the lowest stable one while the reed is rocked, since nearly every
 * mistake of seating reads thick; in the soft first 3 mm what the gauge shows at this moment.
 */
export function heldValue(shownMm: number, lowestMm: Held['lowestMm'], fromTipMm: number): HeldValue {
  return lowestMm === undefined || fromTipMm < SOFT_TIP_MM
    ? { thicknessMm: shownMm }
    : { thicknessMm: lowestMm, method: 'lowest' };
}
