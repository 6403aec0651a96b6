import { describe, expect, it } from 'vitest';
import { asGoodOrBad, heavyTailed } from '../../../src/surface/heavy-tails.ts';

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

it('is weighed in three sweeps, each by what the other leads to expect as it was weighed before', () => {
  const own = Float64Array.of(2.5e-5, 2.5e-5);
  const [a, c, r] = [1e-4, 8e-5, [0, 0.05]];
  let [first, second] = own as unknown as [number, number];
  for (let sweep = 0; sweep < 3; sweep++) {
    const byOther = (mine: number, other: number, weighed: number) =>
      asGoodOrBad(mine - (c / (a + weighed)) * other, a - c ** 2 / (a + weighed), 2.5e-5);
    [first, second] = [byOther(r[0]!, r[1]!, second), byOther(r[1]!, r[0]!, first)];
  }
  const covariance = Float64Array.of(a + 2.5e-5, 0, c, a + 2.5e-5);
  const weighed = heavyTailed(own, { covariance, surprise: Float64Array.from(r) });
  expect(weighed[0]! / first).toBeCloseTo(1, 9);
  expect(weighed[1]! / second).toBeCloseTo(1, 9);
  expect(second).toBeGreaterThan(1.5 * 2.5e-5);
});
