import { describe, expect, it } from 'vitest';
import { removalSpace, widenedVariances } from '../../../src/surface/removal-space.ts';

describe('a removal’s prior for another round', () => {
  const space = removalSpace(50, 62);
  const { along, across } = space;
  const every = (value: number) => new Float64Array(along.count * across.count).fill(value);
  const middle = Math.floor(along.count / 2) * across.count + Math.floor(across.count / 2);

  it('is as wide as the square of what went says by the share that readings tell, and its doubt', () => {
    // Three quarters told: 3.6 times 9 / (0.75 + 0.15), and 4 that are left.
    const widened = widenedVariances(space, { mean: every(3), left: every(4) }, every(16));
    for (const variance of widened) expect(variance).toBeCloseTo(40, 9);
  });

  it('stays what it was where nobody read', () => {
    const widened = widenedVariances(space, { mean: every(0), left: every(16) }, every(16));
    for (const variance of widened) expect(variance).toBeCloseTo(16, 9);
  });

  it('is shared with neighbours by a normal curve over three quarters of a knot', () => {
    const mean = every(0);
    mean[middle] = 1;
    const widened = widenedVariances(space, { mean, left: every(0) }, every(1));
    // All told: 3.6 / 1.15, of which a knot away e^(-8/9) and two away e^(-32/9) count, along and across.
    const all = 1 + 2 * Math.exp(-8 / 9) + 2 * Math.exp(-32 / 9);
    expect(widened[middle]).toBeCloseTo(3.6 / 1.15 / all ** 2, 9);
    expect(widened[middle + 1]! / widened[middle]!).toBeCloseTo(Math.exp(-8 / 9), 9);
    expect(widened[middle + 2 * across.count]! / widened[middle]!).toBeCloseTo(Math.exp(-32 / 9), 9);
    expect(widened[middle + 3]).toBe(0);
  });
});
