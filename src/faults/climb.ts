/** Differences for slopes are taken over this much either way. */
const REACH = 0.1;
const LONGEST_STEP = 1.5;
const MOST_STEPS = 12;
const MOST_HALVINGS = 4;
/** A gain too small to be evidence of anything. */
const LEAST_GAIN = 0.01;

type Score = (x: Float64Array) => number;

export interface Place {
  readonly x: Float64Array;
  readonly value: number;
}

/**
 * A top of a function near a start, by a quasi-Newton search on slopes from differences; kinks smaller than the reach of
 * the differences do no harm.
 *
 * Source: BFGS as in Nocedal & Wright 2006, algorithm 6.1, from memory.
 *
 * @param score To be climbed; its axes are scaled alike, in units of about 1.
 * @param bound Every coordinate stays within -bound to bound.
 * @param value At the start, where it is known.
 */
export function climb(
  score: Score,
  start: Float64Array,
  bound = Infinity,
  value: number = score(start),
): Place {
  let here: Place = { x: start, value };
  const bends = new Float64Array(start.length);
  let slopes = slopesAt(score, here, bends);
  const inverse = Array.from(bends, (bend, i) => start.map((_, j) => (i === j ? 1 / Math.max(bend, 1) : 0)));
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = uphill(score, here, stepAlong(inverse, held(slopes, here.x, bound)), bound);
    if (!next) break;
    if (next.value - here.value < LEAST_GAIN) return next;
    const before = slopes;
    slopes = slopesAt(score, next);
    learn(
      inverse,
      next.x.map((xi, i) => xi - here.x[i]!),
      before.map((slope, i) => slope - slopes[i]!),
    );
    here = next;
  }
  return here;
}

/** Slopes by differences; curvatures, negated, into `bends`. */
function slopesAt(score: Score, { x, value }: Place, bends?: Float64Array): Float64Array {
  return x.map((xi, i) => {
    const above = score(x.with(i, xi + REACH));
    const below = score(x.with(i, xi - REACH));
    if (bends) bends[i] = (2 * value - above - below) / (REACH * REACH);
    return (above - below) / (2 * REACH);
  });
}

/** Slopes that do not lead out of bounds. */
function held(slopes: Float64Array, x: Float64Array, bound: number): Float64Array {
  return slopes.map((slope, i) => (Math.abs(x[i]!) >= bound && slope * x[i]! > 0 ? 0 : slope));
}

function stepAlong(inverse: readonly Float64Array[], slopes: Float64Array): Float64Array {
  const step = slopes.map((_, i) => inverse[i]!.reduce((sum, h, j) => sum + h * slopes[j]!, 0));
  const longest = step.reduce((most, part) => Math.max(most, Math.abs(part)), 0);
  return longest > LONGEST_STEP ? step.map((part) => (part * LONGEST_STEP) / longest) : step;
}

/** The first of ever shorter steps that leads higher. */
function uphill(score: Score, from: Place, step: Float64Array, bound: number): Place | undefined {
  for (let halvings = 0, share = 1; halvings <= MOST_HALVINGS; halvings++, share /= 2) {
    const x = from.x.map((xi, i) => Math.max(-bound, Math.min(bound, xi + share * step[i]!)));
    const value = score(x);
    if (value > from.value) return { x, value };
  }
  return undefined;
}

/** Takes into the inverse curvature that slopes fell by `fall` over a step; nothing where they rose. */
function learn(inverse: readonly Float64Array[], step: Float64Array, fall: Float64Array): void {
  const along = step.reduce((sum, s, i) => sum + s * fall[i]!, 0);
  if (!(along > 0)) return;
  const turned = fall.map((_, i) => inverse[i]!.reduce((sum, h, j) => sum + h * fall[j]!, 0));
  const scale = 1 + fall.reduce((sum, y, i) => sum + y * turned[i]!, 0) / along;
  for (let i = 0; i < step.length; i++)
    for (let j = 0; j < step.length; j++)
      inverse[i]![j]! +=
        (scale * step[i]! * step[j]! - step[i]! * turned[j]! - turned[i]! * step[j]!) / along;
}
