import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convexHull, isInHull } from '../../../src/numerics/convex-hull.ts';

type Point = readonly [number, number];
const coordinate = fc.integer({ min: -20, max: 20 });
const points = fc.array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 25 });

/** By definition: a point is in the hull if no line through it has all points strictly on one side. */
function isWithin(all: readonly Point[], [x, y]: Point): boolean {
  const angles = Array.from({ length: 3600 }, (_, k) => (k * Math.PI) / 1800);
  return angles.every((angle) => {
    const reach = all.map(([px, py]) => Math.cos(angle) * (px - x) + Math.sin(angle) * (py - y));
    return Math.max(...reach) >= -1e-9;
  });
}

describe('a convex hull', () => {
  it('keeps the corners of a square and leaves what lies in it or on its sides', () => {
    const corners = [
      [0, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ] as const;
    expect(convexHull([[2, 2], ...corners, [2, 0], [4, 1]])).toEqual(corners);
  });

  it.each([
    [[[1, 2]], [[1, 2]]],
    [
      [
        [1, 2],
        [1, 2],
      ],
      [[1, 2]],
    ],
    [
      [
        [0, 0],
        [2, 2],
        [1, 1],
      ],
      [
        [0, 0],
        [2, 2],
      ],
    ],
  ] as [Point[], Point[]][])('of %j is %j', (given, hull) => {
    expect(convexHull(given)).toEqual(hull);
  });

  it('holds all of its points, and the same whatever their order', () => {
    fc.assert(
      fc.property(points, (given) => {
        const hull = convexHull(given);
        expect(given.every((point) => isInHull(hull, point, 1e-9))).toBe(true);
        expect(convexHull([...given].reverse())).toEqual(hull);
      }),
    );
  });

  it('holds another place only where the points lie on every side of it', () => {
    fc.assert(
      fc.property(points, fc.tuple(coordinate, coordinate), (given, place) => {
        expect(isInHull(convexHull(given), place, 1e-9)).toBe(isWithin(given, place));
      }),
      { numRuns: 60 },
    );
  });
});
