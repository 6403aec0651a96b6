import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Arch } from '../../../components/scene/arch.ts';

const FACTOR = 4.5;
const halfWidthMm = (y: number) => 3.5 - 0.05 * y;
const arch = new Arch(halfWidthMm, FACTOR);
const place = {
  y: fc.double({ min: 0, max: 23, noNaN: true }),
  u: fc.double({ min: -1, max: 1, noNaN: true }),
};

describe('the arch of a blade', () => {
  it('draws thickness along the normal, so many times larger', () => {
    fc.assert(
      fc.property(place.y, place.u, fc.double({ min: 0.01, max: 0.7, noNaN: true }), (y, u, h) => {
        const [low, high, normal] = [arch.point(y, u, 0), arch.point(y, u, h), arch.normal(y, u)];
        const step = high.map((value, k) => value - low[k]!);
        step.forEach((value, k) => expect(value).toBeCloseTo(FACTOR * h * normal[k]!, 9));
      }),
    );
  });

  it('keeps the planform outside where the edge is as thick as usual', () => {
    // The usual edge: 0.05 mm at the tip, 0.53 from 12 mm on, by hand from the table of the arch.
    for (const [y, edgeMm] of [
      [0, 0.05],
      [12, 0.53],
      [16, 0.53],
    ] as const)
      for (const side of [-1, 1])
        expect(arch.point(y, side, edgeMm)[0]).toBeCloseTo(side * halfWidthMm(y), 9);
  });

  it('stands as high at the tip as half the opening', () => {
    // A circle through edge and middle: its height over the chord is half the opening where the half-width is 3.5 mm.
    const flat = new Arch(() => 3.5, 1e-9, { openingMm: 1.4 });
    expect(flat.point(0, 0, 0)[2] - flat.point(0, 1, 0)[2]).toBeCloseTo(0.7, 6);
  });

  it('is rounder where the gouge is', () => {
    const rise = (gougeRadiusMm: number) => new Arch(halfWidthMm, 1, { gougeRadiusMm }).point(15, 0, 0)[2];
    expect(rise(4.5)).toBeGreaterThan(rise(5.5));
  });

  it('finds the place under a point', () => {
    fc.assert(
      fc.property(place.y, place.u, fc.double({ min: 0, max: 0.7, noNaN: true }), (y, u, h) => {
        const found = arch.placeOf(arch.point(y, u, h));
        expect(found.fromTipMm).toBeCloseTo(y, 9);
        expect(found.across).toBeCloseTo(u, 6);
      }),
    );
  });
});
