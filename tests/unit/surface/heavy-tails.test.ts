import { describe, expect, it } from 'vitest';
import { asGoodOrBad } from '../../../src/surface/heavy-tails.ts';

describe('a reading that may sit badly', () => {
  it('counts in full where the others lead to expect it', () => {
    expect(asGoodOrBad(0, 4e-6, 2.5e-5)).toBe(2.5e-5);
    expect(asGoodOrBad(0.008, 4e-6, 2.5e-5)).toBe(2.5e-5);
  });

  it('counts for little where they do not, as worked by hand', () => {
    // Good 29e-6, bad 904e-6; off by 0.03: log odds of good 4.5951 + 0.5 (ln(904 / 29) - 900 (1 / 29 - 1 / 904)) = -8.7045.
    const odds = Math.log(99) + 0.5 * (Math.log(904 / 29) - 900 * (1 / 29 - 1 / 904));
    expect(odds).toBeCloseTo(-8.7045, 3);
    const isBad = (1 / (1 + Math.exp(odds)) - 0.01) / 0.99;
    const variance = 1 / ((1 - isBad) / 29 + isBad / 904) - 4;
    expect(1e6 * asGoodOrBad(0.03, 4e-6, 2.5e-5)).toBeCloseTo(variance, 6);
    expect(asGoodOrBad(-0.03, 4e-6, 2.5e-5)).toBe(asGoodOrBad(0.03, 4e-6, 2.5e-5));
    // At most six times as far as a good one scatters.
    expect(asGoodOrBad(0.5, 4e-6, 2.5e-5)).toBeCloseTo(36 * 2.5e-5, 9);
  });
});
