import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bladeDrawing, gridValue, locate, side1Of } from '../../../components/map/blade-drawing.ts';

const ysMm = [0, 5, 12, 23.5];
const us = [-1, 0, 1];
const grid = {
  ysMm,
  us,
  halfWidthMm: [3.5, 3.3, 3, 2.4],
  // 0.1 + 0.02 y + 0.05 u: bilinear interpolation gives it back exactly.
  valuesMm: ysMm.flatMap((y) => us.map((u) => 0.1 + 0.02 * y + 0.05 * u)),
};
const drawing = bladeDrawing(grid, 23.5);
const places = fc.record({
  fromTipMm: fc.double({ min: 0, max: 23.5, noNaN: true }),
  across: fc.double({ min: -1, max: 1, noNaN: true }),
});

describe('bladeDrawing', () => {
  it('finds the place under the point where a place is drawn', () => {
    fc.assert(
      fc.property(places, (place) => {
        const found = drawing.placeAt(drawing.x(place.fromTipMm, place.across), drawing.y(place.fromTipMm));
        expect(found.fromTipMm).toBeCloseTo(place.fromTipMm, 9);
        expect(found.across).toBeCloseTo(place.across, 9);
      }),
    );
  });

  it('draws width 1.4 times as large as length, the left edge left and the tip up', () => {
    const mm = drawing.y(1) - drawing.y(0);
    expect(mm).toBeGreaterThan(0);
    expect(drawing.x(0, 1) - drawing.x(0, -1)).toBeCloseTo(7 * 1.4 * mm, 9);
  });

  it('keeps the centre line for every blade of a usual width', () => {
    expect(bladeDrawing({ ...grid, halfWidthMm: [3.2, 3, 2.8, 2.3] }, 25).centre).toBe(drawing.centre);
    expect(bladeDrawing({ ...grid, halfWidthMm: [4, 3.6, 3.2, 3] }, 25).centre).toBeGreaterThan(
      drawing.centre,
    );
  });
});

describe('gridValue', () => {
  it('is linear between the nodes', () => {
    fc.assert(
      fc.property(places, (place) => {
        expect(gridValue(grid, grid.valuesMm, place)).toBeCloseTo(
          0.1 + 0.02 * place.fromTipMm + 0.05 * place.across,
          12,
        );
      }),
    );
  });

  it('knows nothing off the wood', () => {
    expect(gridValue(grid, grid.valuesMm, { fromTipMm: 3, across: 1.01 })).toBeNaN();
    expect(gridValue(grid, grid.valuesMm, { fromTipMm: 23.6, across: 0 })).toBeNaN();
  });
});

describe('locate', () => {
  it('holds the ends', () => {
    expect(locate([1, 2, 4], 0)).toEqual([0, 0]);
    expect(locate([1, 2, 4], 3)).toEqual([1, 0.5]);
    expect(locate([1, 2, 4], 9)).toEqual([1, 1]);
  });
});

describe('side1Of', () => {
  it("is A's left and B's right", () => {
    expect([side1Of('A'), side1Of('B')]).toEqual([-1, 1]);
  });
});
