import { expect, it } from 'vitest';
import { normalUpperTail, quickNormalCdf } from '../../../src/numerics/normal-distribution.ts';

it('is quick and within 1.2e-7 of the exact function', () => {
  for (let z = -8; z <= 8; z += 0.01)
    expect(Math.abs(quickNormalCdf(z) - normalUpperTail(-z))).toBeLessThan(1e-8);
});

it('gives the tabulated values', () => {
  // Tables of the standard normal distribution, four digits; any statistics textbook.
  expect(quickNormalCdf(1.96)).toBeCloseTo(0.975, 4);
  expect(quickNormalCdf(-1.645)).toBeCloseTo(0.05, 4);
});
