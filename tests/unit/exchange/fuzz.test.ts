import { expect, it } from 'vitest';
import { fuzzImports } from '../../fuzz/fuzz-imports.ts';

it('survives fifteen hundred mutated files: taken whole, asked about, or refused with a place', async () => {
  const { failures, taken, asked, refused } = await fuzzImports(1500, 20);
  expect(failures).toEqual([]);
  expect(taken + asked + refused).toBe(1500);
  expect(Math.min(taken, asked, refused)).toBeGreaterThan(20);
});
