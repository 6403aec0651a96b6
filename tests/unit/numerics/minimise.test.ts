import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lowestMinimum, newtonMinimum, scanForStarts } from '../../../src/numerics/minimise.ts';

type Pair = readonly [number, number];

/** A function with how often it was asked. */
function counted<T>(f: (x: Pair) => T) {
  const asked = { times: 0 };
  return [(x: Pair) => (asked.times++, f(x)), asked] as const;
}

/** Rosenbrock's valley, lowest at (1, 1): the usual test of such searches. */
const valley = ([x, y]: Pair) => ({
  value: 100 * (y - x * x) ** 2 + (1 - x) ** 2,
  gradient: [-400 * x * (y - x * x) - 2 * (1 - x), 200 * (y - x * x)] as const,
});

/** A bowl that is deeper by far than what tells its bottom from its neighbours. */
const bowl =
  (middle: Pair, steep: Pair, depth = 0) =>
  ([x, y]: Pair) => ({
    value: steep[0] * Math.cosh(x - middle[0]) + steep[1] * Math.cosh(y - middle[1]) - depth,
    gradient: [steep[0] * Math.sinh(x - middle[0]), steep[1] * Math.sinh(y - middle[1])] as const,
  });

const coordinate = fc.double({ min: -4, max: 4, noNaN: true });
const steepness = fc.double({ min: 0.1, max: 100, noNaN: true });

describe('a minimum of two variables', () => {
  it('is found at the end of a bent valley', () => {
    const { x, value } = newtonMinimum(valley, [-1.2, 1], 10, 1e-8);
    // Values less than 1e-14 apart count as equal, which is a few millionths along the flat of the valley.
    expect(value).toBeLessThan(1e-11);
    expect(Math.hypot(x[0] - 1, x[1] - 1)).toBeLessThan(1e-5);
  });

  it('is found in a bowl from anywhere, with few questions where values can no longer be told apart', () => {
    fc.assert(
      fc.property(
        fc.tuple(coordinate, coordinate),
        fc.tuple(coordinate, coordinate),
        fc.tuple(steepness, steepness),
        (start, middle, steep) => {
          const [f, asked] = counted(bowl(middle, steep, 1e6));
          const { x } = newtonMinimum(f, start, 16, 1e-8);
          expect(Math.hypot(x[0] - middle[0], x[1] - middle[1])).toBeLessThan(1e-6);
          expect(asked.times).toBeLessThan(50);
        },
      ),
    );
  });

  it('stays within bounds, at the edge where the function falls beyond it', () => {
    const { x, gradientSize } = newtonMinimum(bowl([9, 1], [1, 2]), [0, 0], 4, 1e-8);
    expect(x[0]).toBe(4);
    expect(x[1]).toBeCloseTo(1, 8);
    expect(gradientSize).toBeLessThan(1e-8);
  });

  it('uses the curvature that a function gives, and no differences then', () => {
    const [f, asked] = counted(([x, y]: Pair) => ({
      value: x * x + x * y + 2 * y * y,
      gradient: [2 * x + y, x + 4 * y] as const,
      curvature: [2, 1, 4] as const,
    }));
    expect(newtonMinimum(f, [1, -2], 10, 1e-12).value).toBeCloseTo(0, 20);
    expect(asked.times).toBe(2);
  });

  it('is the lowest of those that a scan leads to', () => {
    const twoPits = ([x, y]: Pair) => ({
      value: (x * x - 9) ** 2 + x + y * y,
      gradient: [4 * x * (x * x - 9) + 1, 2 * y] as const,
    });
    const starts = scanForStarts((x) => twoPits(x).value, [-4, 0, 4]);
    expect(starts).toHaveLength(2);
    expect(lowestMinimum(twoPits, starts, 10, 1e-8).x[0]).toBeCloseTo(-3.01, 2);
  });
});
