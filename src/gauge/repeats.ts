import { InputError } from '../../shared/errors.ts';
import { gaussLegendre } from '../numerics/gauss-legendre.ts';
import { normalDensity, normalUpperTail } from '../numerics/normal-distribution.ts';

/** Repeats of one place made one value. */
export interface Repeated {
  readonly valueMm: number;
  /** Standard uncertainty from the scatter alone. */
  readonly uMm: number;
  readonly count: number;
}

/** Beyond this many standard deviations nothing of the minimum's distribution is left. */
const REACH = 9;
const RULE = gaussLegendre(80);

/**
 * Mean and standard deviation of the smallest of n standard normal values.
 *
 * Source: order statistics of a normal sample; the mean is -d2 / 2 for n = 2, with d2 as tabulated in ISO 7870-2.
 */
export function minimumOf(n: number): { readonly mean: number; readonly sd: number } {
  if (!(Number.isInteger(n) && n >= 1)) throw new InputError(`n: must be whole and 1 or more, got ${n}`);
  let [mean, square] = [0, 0];
  RULE.nodes.forEach((node, i) => {
    const z = REACH * (2 * node - 1);
    const mass = 2 * REACH * RULE.weights[i]! * n * normalDensity(z) * normalUpperTail(z) ** (n - 1);
    mean += mass * z;
    square += mass * z * z;
  });
  return { mean, sd: Math.sqrt(square - mean * mean) };
}

/** @param sdMm Scatter of one reading, one standard deviation. */
export function meanOfRepeats(readingsMm: readonly number[], sdMm: number): Repeated {
  checkRepeats(readingsMm, sdMm);
  const count = readingsMm.length;
  const valueMm = readingsMm.reduce((total, reading) => total + reading, 0) / count;
  return { valueMm, uMm: sdMm / Math.sqrt(count), count };
}

/**
 * The lowest of the readings taken while rocking, raised by what the lowest of so many is expected to fall short of the
 * mean: mistakes of seating all read thick, so the low end is the sound one.
 *
 * @param sdMm Scatter of a well seated reading, one standard deviation.
 */
export function lowestOfRepeats(readingsMm: readonly number[], sdMm: number): Repeated {
  checkRepeats(readingsMm, sdMm);
  const { mean, sd } = minimumOf(readingsMm.length);
  return {
    valueMm: Math.min(...readingsMm) - mean * sdMm,
    uMm: sd * sdMm,
    count: readingsMm.length,
  };
}

function checkRepeats(readingsMm: readonly number[], sdMm: number): void {
  if (readingsMm.length === 0) throw new InputError('readingsMm: must hold a reading');
  if (!(sdMm >= 0)) throw new InputError(`sdMm: must be 0 or more, got ${sdMm}`);
}
