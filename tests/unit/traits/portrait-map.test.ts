import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { handMap, sidesMap, type HalvesMap } from '../../../src/traits/portrait-map.ts';

const interval = [0, 0] as const;
const told = { n: 9, u: 0.001, interval, told: true };

/** Value and sureness at the place of the grid nearest to one of the blade. */
function at({ ysMm, us, valuesMm, measurable }: HalvesMap, fromTipMm: number, across: number) {
  const nearest = (values: readonly number[], wish: number) =>
    values.reduce(
      (best, value, k) => (Math.abs(value - wish) < Math.abs(values[best]! - wish) ? k : best),
      0,
    );
  const place = nearest(ysMm, fromTipMm) * us.length + nearest(us, across);
  return [valuesMm[place], measurable[place]];
}

describe('the hand laid on the blade', () => {
  const placed = [rectangleZone('tip', 0, 4), rectangleZone('heart', 4, 9)];
  const map = handMap(
    [
      { ...told, name: 'tip', title: 'Tip', mean: -0.012 },
      { ...told, name: 'heart', title: 'Heart', mean: 0.02, told: false },
    ],
    placed,
  );

  it('has the right half thinner and the left thicker where the right less the left is below nought', () => {
    expect(at(map, 2, 0.5)).toEqual([-0.012, 1]);
    expect(at(map, 2, -0.5)).toEqual([0.012, 1]);
  });

  it('is bare where nothing can be told, and where no zone is', () => {
    expect(at(map, 7, 0.5)).toEqual([0, 0]);
    expect(at(map, 15, 0.5)).toEqual([0, 0]);
  });
});

describe('the sides of a lot laid on blade A', () => {
  it('have side 1, on the left, thicker where side 1 less side 2 is above nought', () => {
    const map = sidesMap({ mean: 0.021, told: true });
    expect(at(map, 12, -0.5)).toEqual([0.021, 1]);
    expect(at(map, 12, 0.5)).toEqual([-0.021, 1]);
    expect(at(map, 3, 0.5)).toEqual([0, 0]);
    expect(at(sidesMap({ mean: 0.021, told: false }), 12, 0.5)).toEqual([0, 0]);
  });
});
