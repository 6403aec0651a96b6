/** More than halvings would take; the method needs about eight. */
const MOST_STEPS = 100;

/**
 * A place between two others at which a continuous function is zero.
 *
 * Source: false position with halved ends, Dowell & Jarratt 1971, doi 10.1007/BF01934364, from memory.
 *
 * @param low Where the function is below zero.
 * @param high Where it is zero or above.
 * @param tolerance Step at which the search ends, in the unit of the places.
 * @throws RangeError where the function has the same sign at both ends.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  if (!(fa < 0 && fb >= 0)) throw new RangeError(`f: must be below 0 at ${low} and not at ${high}`);
  for (let step = 0; step < MOST_STEPS && fb !== 0; step++) {
    const x = b - (fb * (b - a)) / (fb - fa);
    if (Math.abs(x - b) <= tolerance) return x;
    const fx = f(x);
    // On the other side of the zero the last place becomes the far end; on the same one the far end counts half.
    if (fx < 0 === fb < 0) fa /= 2;
    else [a, fa] = [b, fb];
    [b, fb] = [x, fx];
  }
  return b;
}

/**
 * The first place from 0 to `end` at which a function comes from below zero to zero or above; it is looked for step by step,
 * the last step as short as is left. Undefined where it does not; where the function is not a number, it does not.
 *
 * @param tolerance As in `rootBetween`.
 */
export function firstRise(
  f: (x: number) => number,
  end: number,
  step: number,
  tolerance: number,
): number | undefined {
  let before = f(0);
  for (let low = 0; low < end; low += step) {
    const high = Math.min(low + step, end);
    const now = f(high);
    if (before < 0 && now >= 0) return rootBetween(f, low, high, tolerance);
    before = now;
  }
  return undefined;
}
