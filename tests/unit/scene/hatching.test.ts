import { describe, expect, it } from 'vitest';
import { hatching } from '../../../components/scene/hatching.ts';

describe('slanted lines over marked places', () => {
  const ysMm = Array.from({ length: 21 }, (_, k) => k);
  const us = [-1, -0.5, 0, 0.5, 1];
  const grid = { ysMm, us, halfWidthMm: ysMm.map(() => 3), valuesMm: new Float64Array(105) };
  const marked = ysMm.flatMap((y) => us.map(() => (y >= 8 && y <= 12 ? 1 : 0)));

  it('keep to the marked rows up to half a step past them, and fall to the right', () => {
    const runs = hatching(grid, marked);
    const distances = runs.flat().map(({ fromTipMm }) => fromTipMm);
    expect(Math.min(...distances)).toBeGreaterThanOrEqual(7.5);
    expect(Math.min(...distances)).toBeLessThan(7.6);
    expect(Math.max(...distances)).toBeLessThanOrEqual(12.5);
    for (const run of runs)
      run.slice(1).forEach((point, k) => {
        expect(point.across).toBeGreaterThan(run[k]!.across);
        expect(point.fromTipMm).toBeGreaterThan(run[k]!.fromTipMm);
      });
  });

  it('are none where nothing is marked', () => {
    expect(
      hatching(
        grid,
        marked.map(() => 0),
      ),
    ).toEqual([]);
  });
});
