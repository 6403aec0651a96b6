import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GougeReading } from '../../shared/cane.ts';
import { gougeCurve } from '../../src/cane/gouge-curve.ts';
import { diameterFromThreePoints } from '../../src/cane/tube-diameter.ts';
import { circleThrough } from '../../src/numerics/circle.ts';
import { normalPairs } from '../../src/numerics/normal-draws.ts';
import { proportionInterval } from '../../src/numerics/proportion-interval.ts';
import { seededRandom } from '../seeded-random.ts';

/** Thickness between a bark of this radius and an inner circle, along a ray from the bark's centre, by construction. */
function exactThickness(arcMm: number, bark: number, [x, y, r]: readonly [number, number, number]): number {
  const [ux, uy] = [Math.sin(arcMm / bark), Math.cos(arcMm / bark)];
  // Bisection on the ray for the point at distance r from the inner centre: no formula shared with the source.
  let [low, high] = [0, 2 * bark];
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (Math.hypot(middle * ux - x, middle * uy - y) < r) low = middle;
    else high = middle;
  }
  return bark - low;
}

const reading = (arcMm: number, thicknessMm: number, alongMm = 37): GougeReading => ({
  alongMm,
  arcMm,
  thicknessMm,
});
const tube = { valueMm: 10.4, uMm: 0 };

describe('a circle through three points', () => {
  it('is the circle that the points were taken from (exact geometry)', () => {
    // 3-4-5 triangles: all three lie at distance 5 from (1, 2) without rounding.
    expect(circleThrough([4, 6], [-3, 5], [1, -3])).toEqual({ centre: [1, 2], radius: 5 });
    const angle = fc.double({ min: 0.2, max: 2, noNaN: true });
    fc.assert(
      fc.property(angle, angle, fc.double({ min: 0.1, max: 100, noNaN: true }), (a, b, radius) => {
        const at = (t: number) => [radius * Math.cos(t), radius * Math.sin(t) - radius] as const;
        const found = circleThrough(at(0), at(a), at(a + b));
        expect(Math.abs(found.radius / radius - 1)).toBeLessThan(1e-11);
        expect(Math.hypot(found.centre[0], found.centre[1] + radius)).toBeLessThan(1e-11 * radius);
      }),
    );
  });

  it('does not exist for points on one line', () => {
    expect(() => circleThrough([0, 0], [1, 1], [3, 3])).toThrow('must not lie on one line');
  });
});

describe('diameter of a tube from a three-point gauge', () => {
  it('agrees with the sagitta of a known circle, and with the spherometer formula R = c^2 / (8 h) + h / 2', () => {
    // Textbook formula, from memory. Chord 6 in a circle of radius 5: the sagitta is 5 - 4 = 1 exactly.
    expect(diameterFromThreePoints({ feetApartMm: 6, heightMm: 1 }).valueMm).toBeCloseTo(10, 12);
    expect(diameterFromThreePoints({ feetApartMm: 8, heightMm: 1.9 }).valueMm).toBeCloseTo(
      2 * (64 / (8 * 1.9) + 1.9 / 2),
      12,
    );
  });

  it('carries the steps of both readings into the diameter', () => {
    // JCGM 100:2008, 5.1.2, with slopes by differences: steps of 0.01 and 0.02 mm, rectangular.
    const at = (feetApartMm: number, heightMm: number) =>
      diameterFromThreePoints({ feetApartMm, heightMm }).valueMm;
    const [byHeight, byFeet] = [
      (at(6, 1.0001) - at(6, 0.9999)) / 0.0002,
      (at(6.0001, 1) - at(5.9999, 1)) / 0.0002,
    ];
    const expected = Math.hypot((byHeight * 0.01) / Math.sqrt(12), (byFeet * 0.02) / Math.sqrt(12));
    expect(diameterFromThreePoints({ feetApartMm: 6, heightMm: 1 }).uMm).toBeCloseTo(expected, 6);
  });

  it('refuses a height that no circle has', () => {
    expect(() => diameterFromThreePoints({ feetApartMm: 6, heightMm: 3.1 })).toThrow('heightMm');
    expect(() => diameterFromThreePoints({ feetApartMm: 6, heightMm: 0 })).toThrow('heightMm');
  });
});

describe('the inner curve of gouged cane', () => {
  it('is the circle through centre and sides (exact geometry), wherever it lies', () => {
    const offset = fc.double({ min: -0.15, max: 0.15, noNaN: true });
    const behind = fc.double({ min: -0.6, max: 0.1, noNaN: true });
    fc.assert(
      fc.property(offset, behind, fc.double({ min: 4.6, max: 5.6, noNaN: true }), (x, y, top) => {
        const inner = [x, y, top - 0.59 - y] as const;
        const bark = top;
        const places = [-4.3, 0, 4.3];
        const curve = gougeCurve(
          places.map((arc) => reading(arc, exactThickness(arc, bark, inner))),
          { valueMm: 2 * bark, uMm: 0 },
        );
        expect(curve.aside.valueMm).toBeCloseTo(inner[0], 7);
        expect(curve.towardsTop.valueMm).toBeCloseTo(inner[1], 7);
        expect(curve.innerRadiusMm.valueMm).toBeCloseTo(inner[2], 7);
        for (const arc of [-3.5, -1, 2, 4])
          expect(curve.thicknessAt(arc).valueMm).toBeCloseTo(exactThickness(arc, bark, inner), 7);
      }),
      { numRuns: 50 },
    );
  });

  it('gives the usual gouge of the trade: 0.58, 0.54 and 0.46 at 1.4, 2.8 and 4.5 mm from the middle', () => {
    // Common practice, no source: tube radius 5.2, centre 0.59, bed displaced by 0.37 mm. The rule of thumb
    // t = 0.59 - 0.37 (1 - cos(s / R)) is first order in the displacement; two circles differ by under 0.01 mm.
    const inner = [0, -0.37, 5.2 - 0.59 + 0.37] as const;
    const curve = gougeCurve(
      [-4.3, -2, 0, 2, 4.3].map((arc) => reading(arc, exactThickness(arc, 5.2, inner))),
      tube,
    );
    for (const [arc, thickness] of [
      [1.4, 0.58],
      [2.8, 0.54],
      [4.5, 0.46],
    ] as const) {
      expect(Math.abs(curve.thicknessAt(arc).valueMm - thickness)).toBeLessThan(0.015);
      expect(Math.abs(curve.thicknessAt(-arc).valueMm - thickness)).toBeLessThan(0.015);
    }
  });

  it('says how sure it is: 95 % of repeated pieces have the truth inside their doubt', () => {
    const inner = [0.05, -0.37, 4.98] as const;
    const places = [-4.3, -4.3, 0, 0, 0, 4.3, 4.3];
    const noise = { seatingMm: 0.005, stepMm: 1e-6, placementMm: 0 };
    const inside = { aside: 0, edge: 0 };
    const runs = 600;
    const errors = normalPairs(seededRandom(12345), runs * places.length);
    for (let run = 0; run < runs; run++) {
      const readings = places.map((arc, i) =>
        reading(arc, exactThickness(arc, 5.2, inner) + 0.005 * errors[run * places.length + i]!),
      );
      const curve = gougeCurve(readings, tube, noise);
      const edge = curve.thicknessAt(3.2);
      if (Math.abs(curve.aside.valueMm - inner[0]) < 1.96 * curve.aside.uMm) inside.aside++;
      if (Math.abs(edge.valueMm - exactThickness(3.2, 5.2, inner)) < 1.96 * edge.uMm) inside.edge++;
    }
    // Three standard errors of a share of 0.95 in 600 runs: 0.027.
    expect(Math.abs(inside.aside / runs - 0.95)).toBeLessThan(0.027);
    expect(Math.abs(inside.edge / runs - 0.95)).toBeLessThan(0.027);
  });

  it('has more doubt where the tube is not known', () => {
    const readings = [-4.3, 0, 4.3].map((arc) => reading(arc, arc === 0 ? 0.59 : 0.46));
    const sure = gougeCurve(readings, tube);
    const unsure = gougeCurve(readings, { valueMm: 10.4, uMm: 0.25 });
    expect(unsure.innerRadiusMm.uMm).toBeGreaterThan(sure.innerRadiusMm.uMm);
    expect(unsure.thicknessAt(0).uMm).toBeCloseTo(sure.thicknessAt(0).uMm, 6);
  });

  it('is not guessed from too little', () => {
    expect(() => gougeCurve([reading(0, 0.59), reading(4, 0.46)], tube)).toThrow('both sides');
    expect(() => gougeCurve([reading(0, 0.59), reading(0.1, 0.59), reading(4, 0.46)], tube)).toThrow(
      'both sides',
    );
  });
});

describe('the share of a lot that was good', () => {
  it('agrees with Newcombe 1998 (Statistics in Medicine 17:857, table I, score method), from memory', () => {
    for (const [count, of, lower, upper] of [
      [81, 263, 0.2553, 0.3662],
      [15, 148, 0.0624, 0.1605],
      [0, 20, 0, 0.1611],
      [1, 29, 0.0061, 0.1718],
    ] as const) {
      const found = proportionInterval(count, of);
      expect(Math.abs(found.lower - lower)).toBeLessThan(5.1e-5);
      expect(Math.abs(found.upper - upper)).toBeLessThan(5.1e-5);
    }
    expect(() => proportionInterval(3, 2)).toThrow('count');
    expect(() => proportionInterval(0, 0)).toThrow('of:');
  });
});
