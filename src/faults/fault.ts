import type { Blade } from '../../shared/blade.ts';
import type { Remedy } from '../../shared/remedy.ts';
import type { Grade } from './judge-pass.ts';

/** A fault that the readings of a pass show, or ask about. */
export interface Fault {
  readonly kind:
    | 'zero'
    | 'drift'
    | 'swelling'
    | 'swapped'
    | 'mirrored'
    | 'clip'
    | 'shifted'
    | 'digits'
    | 'increase';
  readonly blade: Blade | 'both';
  readonly grade: Grade;
  /** Gain in log-likelihood; for single readings and increases, standard deviations. */
  readonly evidence: number;
  /** What the gauge added, at the end of a drift, the clip, the shift, the mean increase, or the thickness that was meant. */
  readonly valueMm?: number;
  /** Its standard uncertainty, of a zero, a drift, a clip and a shift. */
  readonly uMm?: number;
  /** Growth in proportion, of swelling alone. */
  readonly factor?: number;
  /** Of digits, and the middle of an increase. */
  readonly place?: { readonly fromTipMm: number; readonly across: number };
  /** Of digits: what the cane before and the readings around it led to expect, mm. */
  readonly expectedMm?: number;
  /** Other faults in the list that explain the pass as well: one of them all, not several. */
  readonly orElse?: readonly Fault['kind'][];
  /** One act that puts the pass right; absent where only reading again does. */
  readonly remedy?: Remedy;
}

/** An isolated low reading: a dig, or a slip. Until it is read again it counts as true, unless it is in doubt. */
export interface PlaceToReadAgain {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly readMm: number;
  readonly expectedMm: number;
  /** No knife was there since a pass before: a slip is likelier than a dig, and until it is read again it weighs little. */
  readonly inDoubt?: true;
}

export interface PassFaults {
  readonly index: number;
  readonly faults: readonly Fault[];
  readonly readAgain: readonly PlaceToReadAgain[];
}
