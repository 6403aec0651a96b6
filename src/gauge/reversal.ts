import { InputError } from '../../shared/errors.ts';
import { meanInterval } from '../learning/mean-interval.ts';

/** Right less left at one place, read as usual and with the reed turned on the tongue, mm. */
export interface TurnedPair {
  readonly usualMm: number;
  readonly turnedMm: number;
}

/** A difference with its standard uncertainty and 95 % interval, mm. */
export interface ReversalPart {
  readonly valueMm: number;
  readonly uMm: number;
  readonly told: boolean;
}

/** What stays when the reed is turned is the reed's own; what changes its sign is the gauge's. */
export interface Reversal {
  readonly hand: ReversalPart;
  readonly tilt: ReversalPart;
}

/**
 * Parts a hand difference from a tilt on the tongue: half the sum of the two readings is the reed's, half their
 * difference the gauge's. Own derivation.
 *
 * @param pairs Three or more places.
 * @throws InputError for fewer than three.
 */
export function partReversal(pairs: readonly TurnedPair[]): Reversal {
  if (pairs.length < 3) throw new InputError(`pairs: must be at least 3, got ${pairs.length}`);
  const part = (values: readonly number[]): ReversalPart => {
    const { mean, u, interval } = meanInterval(values);
    return { valueMm: mean, uMm: u, told: interval[0] > 0 || interval[1] < 0 };
  };
  return {
    hand: part(pairs.map(({ usualMm, turnedMm }) => (usualMm + turnedMm) / 2)),
    tilt: part(pairs.map(({ usualMm, turnedMm }) => (usualMm - turnedMm) / 2)),
  };
}
