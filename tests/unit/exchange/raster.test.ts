import { describe, expect, it } from 'vitest';
import { rasterOf } from '../../../src/exchange/surfaces/x3p.ts';

// Two rows, 4 and 8 mm wide, 4 mm apart: half a millimetre wider on each side per mm. Thickness 0.2 + 0.1 u at the tip,
// 0.4 + 0.1 u at the other end.
const us = [-1, 0, 1];
const grid = {
  blade: 'A',
  ysMm: [0, 4],
  us,
  halfWidthsMm: [2, 4],
  thicknessMm: Float64Array.from([0.1, 0.2, 0.3, 0.3, 0.4, 0.5]),
} as unknown as Parameters<typeof rasterOf>[0];
const raster = rasterOf(grid, 0.25);
const heightAt = (yMm: number, xMm: number) =>
  raster.heightsMm[
    Math.round(yMm / 0.25) * raster.columns + Math.round((xMm - raster.firstColumnMm) / 0.25)
  ]!;

describe('heights on an even raster', () => {
  it('reach across the widest row, evenly about the centre line', () => {
    expect(raster).toMatchObject({ columns: 33, rows: 17, stepMm: 0.25, firstColumnMm: -4 });
  });

  it('end where the blade’s edge lies between its rows', () => {
    // At 2 mm the half-width is 3 mm; at 1 mm 2.5 mm; at 3 mm 3.5 mm.
    for (const [yMm, halfMm] of [
      [0, 2],
      [1, 2.5],
      [2, 3],
      [3, 3.5],
      [4, 4],
    ] as const)
      for (const side of [-1, 1]) {
        expect(heightAt(yMm, side * halfMm)).not.toBeNaN();
        if (halfMm < 4) expect(heightAt(yMm, side * (halfMm + 0.25))).toBeNaN();
      }
  });

  it('are straight between rows and along the share of the width', () => {
    // At 1 mm, x = 1.25: u = 1.25 / 2.5 = 0.5; 0.2 + 0.05 at the tip's row, 0.2 more at the far row.
    expect(heightAt(1, 1.25)).toBeCloseTo(0.25 + 0.25 * 0.2, 12);
    expect(heightAt(2, -1.5)).toBeCloseTo(0.15 + 0.5 * 0.2, 12);
    expect(heightAt(4, 4)).toBeCloseTo(0.5, 12);
  });
});
