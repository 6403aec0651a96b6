import { usualZeroUMm } from '../gauge/correct-readings.ts';

/**
 * Errors that all readings of a pass share. They do not average out: the mean of a zone stays as unsure as the zero,
 * while left against right is sure.
 */
export interface SharedErrorSizes {
  /** Zero of the gauge, mm. */
  readonly zeroMm: number;
  /** What the zero moves by from the first reading of a pass to the last, mm; no more than a zero's doubt where it is absent. */
  readonly driftMm?: number;
  /** Swelling against the first pass, as a proportion. */
  readonly swelling: number;
  /** Distance from the tip against the first pass, mm. */
  readonly lengthMm: number;
  /** 1 where labels of the pass may have been taken for each other, as a share of what each reading would be off by; else 0. */
  readonly labels?: number;
  /** What may have come off unread, if the readings are another blade's, one standard deviation, mm; else 0. */
  readonly unreadMm?: number;
}

/** Standard deviations for a careful maker. Common practice, no source. */
export function usualSharedErrors(stepMm: number): SharedErrorSizes {
  return { zeroMm: usualZeroUMm(stepMm), swelling: 0.005, lengthMm: 0.05 };
}

/** What a shared error needs to know of a reading to say how the reading moves with it. */
export interface SharedPlace {
  readonly thicknessMm: number;
  /** When in its pass it was read, 0 to 1. */
  readonly time: number;
  /** How fast the surface grows with the distance from the cork, mm per mm. */
  readonly slopeAlong: number;
  /** What it is off by if labels were taken for each other, mm. */
  readonly mislabelledMm?: number | undefined;
}

/** How a reading moves with one unit of an error, by its kind. */
const EFFECTS = {
  zero: () => 1,
  drift: ({ time }: SharedPlace) => time,
  swelling: ({ thicknessMm }: SharedPlace) => thicknessMm,
  length: ({ slopeAlong }: SharedPlace) => slopeAlong,
  labels: ({ mislabelledMm = 0 }: SharedPlace) => mislabelledMm,
  // What both blades do alike is in the blades themselves.
  common: () => 0,
} as const;

/**
 * One error that readings share, on both blades: a normal unknown about zero, estimated with the surfaces. A new kind is
 * one more line of effects. Plain data, so that a fit may go to another thread.
 */
export interface SharedError {
  readonly kind: keyof typeof EFFECTS;
  /** Place of the pass whose readings share it; absent where those of all passes do. */
  readonly pass?: number;
  /** Before the readings speak, in the square of its unit; 0 for an error that there is not. */
  readonly variance: number;
  /** What stays of it whatever the readings say, while a question leaves two answers open. */
  readonly openVariance?: number;
}

/**
 * The usual errors, those of all passes first, then pass by pass; the first pass defines wetness and length.
 *
 * @param zerosMm Zeros of single passes that are known otherwise than usually, one standard deviation.
 * @param open How far apart the answers to questions about single passes are.
 */
export function sharedErrors(
  passCount: number,
  sizes: SharedErrorSizes,
  zerosMm: readonly (number | undefined)[] = [],
  open: readonly SharedErrorSizes[] = [],
): SharedError[] {
  return Array.from({ length: passCount }, (_, pass): SharedError[] => {
    const { zeroMm, swelling, lengthMm, driftMm = 0, labels = 0, unreadMm = 0 } = open[pass] ?? NOTHING_OPEN;
    const usual = pass === 0 ? NOTHING_OPEN : sizes;
    return [
      // The readings tell a moved zero well; of swelling and length values stay as written, and only their doubt grows.
      {
        kind: 'zero',
        pass,
        ...unsure(
          Math.hypot(zerosMm[pass] ?? sizes.zeroMm, zeroMm),
          Math.hypot(zeroMm, COVERAGE_FACTOR * unreadMm),
        ),
      },
      { kind: 'swelling', pass, ...unsure(usual.swelling, swelling) },
      { kind: 'length', pass, ...unsure(usual.lengthMm, lengthMm) },
      ...(driftMm > 0 ? [{ kind: 'drift' as const, pass, ...unsure(driftMm, driftMm) }] : []),
      ...(labels > 0 ? [{ kind: 'labels' as const, pass, ...unsure(labels, labels) }] : []),
    ];
  }).flat();
}

const NOTHING_OPEN: SharedErrorSizes = { zeroMm: 0, swelling: 0, lengthMm: 0 };
/** Standard errors in a 95 % interval, which reaches from one answer to the other. */
const COVERAGE_FACTOR = 1.959964;

function unsure(sd: number, openSize: number): Pick<SharedError, 'variance' | 'openVariance'> {
  if (openSize === 0) return { variance: sd ** 2 };
  return { variance: sd ** 2, openVariance: (openSize / COVERAGE_FACTOR) ** 2 };
}

/** How many of the errors, from the first, any reading up to a pass may share. */
export function errorsUpTo(errors: readonly SharedError[], pass: number): number {
  return errors.findLastIndex((error) => (error.pass ?? 0) <= pass) + 1;
}

/** How a reading of a pass moves with each of the first `count` errors. */
export function effectsOn(
  errors: readonly SharedError[],
  pass: number,
  place: SharedPlace,
  count = errors.length,
): Float64Array {
  const effects = new Float64Array(count);
  for (let m = 0; m < count; m++) {
    const error = errors[m]!;
    if (error.pass === undefined || error.pass === pass) effects[m] = EFFECTS[error.kind](place);
  }
  return effects;
}
