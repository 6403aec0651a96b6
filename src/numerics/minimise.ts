type Pair = readonly [number, number];
/** Second derivatives: by the first variable twice, by both, by the second twice. */
type Curvature = readonly [number, number, number];

/** What a function of two variables says of itself at a place. */
interface Valued {
  readonly value: number;
  readonly gradient: Pair;
  /** Where it comes cheap; an estimate serves. */
  readonly curvature?: Curvature;
}

/** A function of two variables with its gradient. */
export type Gradient2 = (x: Pair) => Valued;

export interface Minimum2 {
  readonly x: Pair;
  readonly value: number;
  readonly gradientSize: number;
}

type Place = Valued & { readonly x: Pair };

const FINITE_STEP = 1e-4;
const LONGEST_STEP = 3;
/** Values this close, as a share of their size, can't be told apart. */
const ROUNDING = 1e-14;
/** A step that leaves no more than this share of the gradient was right about the curvature. */
const WELL_FORESEEN = 0.3;

/**
 * A minimum near a starting point: Newton's method with the function's own curvature or that from differences of
 * the gradient, carried on by the steps themselves as long as they go well; made positive, steps shortened until the
 * value falls, kept inside bounds.
 *
 * Source: Nocedal & Wright, Numerical Optimization, 2006, 6.2, for the symmetric rank-one update, from memory.
 *
 * @param bound Both variables stay within -bound to bound.
 * @param tolerance Largest component of the gradient at which the search ends.
 */
export function newtonMinimum(f: Gradient2, start: Pair, bound: number, tolerance: number): Minimum2 {
  let here: Place = { x: start, ...f(start) };
  let carried: Curvature | undefined;
  for (let iteration = 0; iteration < 40; iteration++) {
    const free = freeGradient(here, bound);
    if (largest(free) < tolerance) break;
    const curvature = here.curvature ?? carried ?? differences(f, here);
    const next = descend(f, here, free, newtonStep(curvature, free), bound);
    if (next) {
      const well = largest(freeGradient(next, bound)) < WELL_FORESEEN * largest(free);
      carried = well ? secant(curvature, here, next) : undefined;
      here = next;
    } else if (carried) carried = undefined;
    else break;
  }
  return { x: here.x, value: here.value, gradientSize: largest(freeGradient(here, bound)) };
}

/** The first place along a step, halved while it must be, that is lower; none where rounding hides any descent. */
function descend(f: Gradient2, here: Place, free: Pair, step: Pair, bound: number): Place | undefined {
  const slope = free[0] * step[0] + free[1] * step[1];
  const rounding = ROUNDING * (1 + Math.abs(here.value));
  let scale = 1;
  do {
    const x = [clamp(here.x[0] + scale * step[0], bound), clamp(here.x[1] + scale * step[1], bound)] as const;
    const next: Place = { x, ...f(x) };
    if (next.value < here.value) return next;
    // Where values can't be told apart the gradient still says which place is nearer to the minimum.
    const isFlatter = largest(freeGradient(next, bound)) < largest(free);
    if (isFlatter && next.value < here.value + rounding) return next;
    scale /= 2;
  } while (-scale * slope > rounding);
  return undefined;
}

/** The lowest of the minima found from several starts. */
export function lowestMinimum(
  f: Gradient2,
  starts: readonly Pair[],
  bound: number,
  tolerance: number,
): Minimum2 {
  const minima = starts.map((start) => newtonMinimum(f, start, bound, tolerance));
  return minima.reduce((best, other) => (other.value < best.value ? other : best));
}

/** The places of a square grid at which a function is no higher than at their neighbours: starts that miss little. */
export function scanForStarts(f: (x: Pair) => number, levels: readonly number[]): Pair[] {
  const values = levels.map((x) => levels.map((y) => f([x, y])));
  return levels.flatMap((x, i) =>
    levels.flatMap((y, j) => {
      const around = values
        .slice(Math.max(0, i - 1), i + 2)
        .flatMap((row) => row.slice(Math.max(0, j - 1), j + 2));
      return values[i]![j]! <= Math.min(...around) ? [[x, y] as const] : [];
    }),
  );
}

function clamp(value: number, bound: number): number {
  return Math.min(Math.max(value, -bound), bound);
}

function largest([a, b]: Pair): number {
  return Math.max(Math.abs(a), Math.abs(b));
}

/** The gradient without the parts that push against a bound. */
function freeGradient({ x, gradient: g }: Place, bound: number): Pair {
  const free = (i: 0 | 1) => ((x[i] >= bound && g[i] < 0) || (x[i] <= -bound && g[i] > 0) ? 0 : g[i]);
  return [free(0), free(1)];
}

function differences(f: Gradient2, { x, gradient: g }: Place): Curvature {
  const g0 = f([x[0] + FINITE_STEP, x[1]]).gradient;
  const g1 = f([x[0], x[1] + FINITE_STEP]).gradient;
  return [
    (g0[0] - g[0]) / FINITE_STEP,
    (g0[1] - g[1] + g1[0] - g[0]) / (2 * FINITE_STEP),
    (g1[1] - g[1]) / FINITE_STEP,
  ];
}

/** The curvature with the smallest change of rank one that explains how the gradient changed over a step. */
function secant([h00, h01, h11]: Curvature, from: Place, to: Place): Curvature {
  const step = [to.x[0] - from.x[0], to.x[1] - from.x[1]] as const;
  const missed = [
    to.gradient[0] - from.gradient[0] - (h00 * step[0] + h01 * step[1]),
    to.gradient[1] - from.gradient[1] - (h01 * step[0] + h11 * step[1]),
  ] as const;
  const scale = missed[0] * step[0] + missed[1] * step[1];
  if (Math.abs(scale) <= 1e-8 * Math.hypot(...missed) * Math.hypot(...step)) return [h00, h01, h11];
  return [
    h00 + (missed[0] * missed[0]) / scale,
    h01 + (missed[0] * missed[1]) / scale,
    h11 + (missed[1] * missed[1]) / scale,
  ];
}

function newtonStep([h00, h01, h11]: Curvature, free: Pair): Pair {
  const [p, q] = positiveSolve(h00, h01, h11, free[0], free[1]);
  const longest = largest([p, q]);
  const shorten = longest > LONGEST_STEP ? LONGEST_STEP / longest : 1;
  return [-p * shorten, -q * shorten];
}

/** Solves H p = g with the eigenvalues of H replaced by their sizes, none too small. */
function positiveSolve(a: number, b: number, d: number, g0: number, g1: number): Pair {
  const mean = (a + d) / 2;
  const spread = Math.hypot((a - d) / 2, b);
  const least = 1e-3 * Math.max(Math.abs(mean) + spread, 1e-9);
  const big = Math.max(Math.abs(mean + spread), least);
  const small = Math.max(Math.abs(mean - spread), least);
  const angle = Math.atan2(2 * b, a - d) / 2;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const along = (c * g0 + s * g1) / big;
  const across = (-s * g0 + c * g1) / small;
  return [c * along - s * across, s * along + c * across];
}
