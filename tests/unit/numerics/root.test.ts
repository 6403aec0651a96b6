import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rootBetween } from '../../../src/numerics/root.ts';

describe('the zero between two places', () => {
  it('of x^3 - 2x - 5 is 2.0945514815423265', () => {
    // Wallis's cubic, the oldest test of root finding; the value from memory, checked by putting it in.
    const f = (x: number) => x * x * x - 2 * x - 5;
    const root = rootBetween(f, 2, 3, 1e-14);
    expect(root).toBeCloseTo(2.0945514815423265, 13);
    expect(Math.abs(f(root))).toBeLessThan(1e-13);
  });

  it('is found for any line, and scales with its places', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.constantFrom(1e-6, 1, 1e6),
        (at, scale) => {
          const root = rootBetween((x) => x / scale - at, 0, scale, 1e-12 * scale);
          expect(Math.abs(root / scale - at)).toBeLessThan(1e-12);
        },
      ),
    );
  });

  it('is found in few steps where the function bends, from a flat side too', () => {
    let calls = 0;
    const root = rootBetween((x) => (calls++, x ** 9 - 1e-3), 0, 2, 1e-12);
    expect(root).toBeCloseTo(1e-3 ** (1 / 9), 11);
    expect(calls).toBeLessThan(40);
  });

  it('needs a change of sign', () => {
    expect(() => rootBetween((x) => x + 1, 0, 1, 1e-9)).toThrow(RangeError);
  });
});
