import { describe, expect, it } from 'vitest';
import { estimate } from '../../../src/figures/functional.ts';
import { rippleFunctional, ripplePlaces } from '../../../src/figures/ripple.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const sum = (value: (y: number, u: number) => number, y: number, u: number) =>
  ripplePlaces(y, u, 24).reduce(
    (total, { fromTipMm, across, factor }) => total + factor * value(fromTipMm, across),
    0,
  );

describe('a ripple', () => {
  it('is none on a plane, however steep, at the tip as well', () => {
    const plane = (y: number, u: number) => 0.1 + 0.03 * y + 0.05 * u;
    for (const [y, u] of [
      [10, 0.2],
      [0.1, 0],
      [0, 0],
    ] as const)
      expect(sum(plane, y, u)).toBeCloseTo(0, 12);
  });

  it('of a parabola along is its second derivative times the mean square of the steps, with a minus', () => {
    // y^2: pairs at 0.7, 0, 0.49 and 0.49 mm along; the mean of 0.49, 0, 0.2401 and 0.2401 is 0.24255. By hand.
    expect(sum((y) => y * y, 10, 0)).toBeCloseTo(-0.24255, 9);
  });

  it('is set beside places as far as the very edges, and beside pairs alone', () => {
    const count = (y: number, u: number) => ripplePlaces(y, u, 24).length;
    // 0.13 more across is the edge at 0.87; 0.7 mm more along is the end at 23.3 and the tip at 0.7.
    expect([count(10, 0.87), count(10, 0.88), count(10, -0.87), count(10, -0.88)]).toEqual([9, 7, 9, 7]);
    expect([count(23.3, 0), count(23.4, 0), count(0.7, 0), count(0.6, 0)]).toEqual([9, 7, 9, 7]);
    expect(ripplePlaces(0, 1, 24)).toEqual([]);
  });

  it('on a fitted reed has a doubt that its own smoothness keeps below that of two readings', () => {
    const { model } = scenarioReed('m-142');
    const { uMm } = estimate(model!, rippleFunctional(model!, 'A', 3, { fromTipMm: 12, across: 0 }));
    expect(uMm).toBeGreaterThan(0);
    expect(uMm).toBeLessThan(0.007);
  });
});
