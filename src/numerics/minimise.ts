/** A function of two variables with its gradient, and its second derivatives where they come cheap. */
export type Gradient2 = (x: readonly [number, number]) => {
  readonly value: number;
  readonly gradient: readonly [number, number];
  /** By the first twice, by both, by the second twice; an estimate serves. */
  readonly curvature?: readonly [number, number, number];
};

export interface Minimum2 {
  readonly x: readonly [number, number];
  readonly value: number;
  readonly gradientSize: number;
}

const FINITE_STEP = 1e-4;
const LONGEST_STEP = 3;

/**
 * A minimum near a starting point: Newton's method with the function's own curvature or that from differences of
 * the gradient, made positive, steps shortened until the value falls, kept inside bounds.
 *
 * @param bound Both variables stay within -bound to bound.
 * @param tolerance Largest component of the gradient at which the search ends.
 */
export function newtonMinimum(
  f: Gradient2,
  start: readonly [number, number],
  bound: number,
  tolerance: number,
): Minimum2 {
  let x = start;
  let here = f(x);
  for (let iteration = 0; iteration < 40; iteration++) {
    const free = freeGradient(x, here.gradient, bound);
    if (Math.max(Math.abs(free[0]), Math.abs(free[1])) < tolerance) break;
    const step = newtonStep(here.curvature ?? differences(f, x, here.gradient), free);
    let scale = 1;
    let next = here;
    let to = x;
    for (; scale > 1e-6; scale /= 2) {
      to = [clamp(x[0] + scale * step[0], bound), clamp(x[1] + scale * step[1], bound)];
      next = f(to);
      if (next.value < here.value) break;
    }
    if (!(next.value < here.value)) break;
    x = to;
    here = next;
  }
  const [g0, g1] = freeGradient(x, here.gradient, bound);
  return { x, value: here.value, gradientSize: Math.max(Math.abs(g0), Math.abs(g1)) };
}

/** The lowest of the minima found from several starts. */
export function lowestMinimum(
  f: Gradient2,
  starts: readonly (readonly [number, number])[],
  bound: number,
  tolerance: number,
): Minimum2 {
  const minima = starts.map((start) => newtonMinimum(f, start, bound, tolerance));
  return minima.reduce((best, other) => (other.value < best.value ? other : best));
}

/** The places of a square grid at which a function is no higher than at their neighbours: starts that miss little. */
export function scanForStarts(
  f: (x: readonly [number, number]) => number,
  levels: readonly number[],
): (readonly [number, number])[] {
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

/** The gradient without the parts that push against a bound. */
function freeGradient(
  x: readonly [number, number],
  g: readonly [number, number],
  bound: number,
): [number, number] {
  const free = (i: 0 | 1) => ((x[i] >= bound && g[i] < 0) || (x[i] <= -bound && g[i] > 0) ? 0 : g[i]);
  return [free(0), free(1)];
}

function differences(
  f: Gradient2,
  x: readonly [number, number],
  g: readonly [number, number],
): readonly [number, number, number] {
  const g0 = f([x[0] + FINITE_STEP, x[1]]).gradient;
  const g1 = f([x[0], x[1] + FINITE_STEP]).gradient;
  return [
    (g0[0] - g[0]) / FINITE_STEP,
    (g0[1] - g[1] + g1[0] - g[0]) / (2 * FINITE_STEP),
    (g1[1] - g[1]) / FINITE_STEP,
  ];
}

function newtonStep(
  [h00, h01, h11]: readonly [number, number, number],
  free: readonly [number, number],
): readonly [number, number] {
  const [p, q] = positiveSolve(h00, h01, h11, free[0], free[1]);
  const longest = Math.max(Math.abs(p), Math.abs(q));
  const shorten = longest > LONGEST_STEP ? LONGEST_STEP / longest : 1;
  return [-p * shorten, -q * shorten];
}

/** Solves H p = g with the eigenvalues of H replaced by their sizes, none too small. */
function positiveSolve(a: number, b: number, d: number, g0: number, g1: number): [number, number] {
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
