import { describe, expect, it } from 'vitest';
import { throughReadings } from '../../../src/figures/through-readings.ts';

const ROWS = [1, 2, 4, 7, 11];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
/** A cubic along times a cubic across, worked out by hand: a spline without a knot at its ends is that very surface. */
const cubic = (y: number, u: number) => 0.2 + 0.03 * y - 0.0002 * y ** 3 - 0.05 * u ** 2 + 0.01 * y * u ** 3;
const readings = ROWS.flatMap((fromTipMm) =>
  ACROSS.map((across) => ({ fromTipMm, across, thicknessMm: cubic(fromTipMm, across) })),
);
const at = (y: number, u: number, read = readings) =>
  throughReadings(read, { ysMm: [y], us: [u] })?.valuesMm[0];

describe('the surface through every reading', () => {
  it('is the reading at each station, and the cubic between them', () => {
    for (const { fromTipMm, across, thicknessMm } of readings)
      expect(at(fromTipMm, across)).toBeCloseTo(thicknessMm, 12);
    expect(at(3.3, 0.21)).toBeCloseTo(cubic(3.3, 0.21), 12);
    expect(at(9.1, -0.63)).toBeCloseTo(cubic(9.1, -0.63), 12);
  });

  it('follows one odd reading to the last digit: it smooths nothing', () => {
    const odd = readings.map((one, i) => (i === 12 ? { ...one, thicknessMm: 0.1 } : one));
    expect(at(ROWS[2]!, ACROSS[2]!, odd)).toBeCloseTo(0.1, 12);
  });

  it('says nothing beyond the outermost readings', () => {
    expect(at(0.5, 0)).toBeNaN();
    expect(at(5, 0.9)).toBeNaN();
  });

  it('is not drawn where a place of a row is missing, nor through one column', () => {
    expect(throughReadings(readings.slice(1), { ysMm: [2], us: [0] })).toBeUndefined();
    const column = readings.filter(({ across }) => across === 0);
    expect(throughReadings(column, { ysMm: [2], us: [0] })).toBeUndefined();
    // As many readings as places, but one twice and one missing.
    const uneven = [...readings.slice(1), { fromTipMm: 2, across: 0.1, thicknessMm: 0.3 }];
    expect(throughReadings(uneven, { ysMm: [2], us: [0] })).toBeUndefined();
  });
});
