import { describe, expect, it } from 'vitest';
import { believableAtMm, believableMap, believableOverMm } from '../../../src/figures/believable-map.ts';
import { combine, estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { slopeAt, type Direction } from '../../../src/figures/slopes.ts';
import { mapGrid, slopeMap } from '../../../src/figures/surface-map.ts';
import { zoneArea } from '../../../src/figures/zone-mean.ts';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { believableChangeMm } from '../../../src/gauge/believable-change.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { fitPlainly } from '../../../src/surface/plain-model.ts';
import type { FitPass, ReedModel } from '../../../src/surface/reed-model.ts';
import { readSample } from '../../read-sample.ts';

const { passes } = readSample('clip');
const joint = fitReed(passes.slice(0, 2));
const plain = fitPlainly(passes[0]!);
const STEP_MM = 1e-4;

const models: readonly (readonly [string, ReedModel, number])[] = [
  ['the joint model', joint, 1],
  ['the plain model', plain, 0],
];
const places = [1.3, 3.9, 4.6, 7.2, 13.7].flatMap((fromTipMm) =>
  [-0.7, 0, 0.33].map((across) => ({ fromTipMm, across })),
);

/** First differences of the thickness along or across in real millimetres. */
function differences(model: ReedModel, pass: number, place: (typeof places)[number], direction: Direction) {
  const halfWidth = model.passes[pass]!.halfWidthMm(place.fromTipMm);
  const at = (mm: number) =>
    estimate(
      model,
      pointFunctional(model, {
        blade: 'A',
        pass,
        fromTipMm: place.fromTipMm + (direction === 'along' ? mm : 0),
        across: place.across + (direction === 'across' ? mm / halfWidth : 0),
      }),
    ).valueMm;
  return (at(STEP_MM) - at(-STEP_MM)) / (2 * STEP_MM);
}

describe.each(models)('slopes of %s', (_, model, pass) => {
  it.each(['along', 'across'] as const)('%s agree with differences of the thickness', (direction) => {
    for (const place of places) {
      const expected = differences(model, pass, place, direction);
      const on = { blade: 'A', pass, ...place } as const;
      // Rounding of a thickness, 1e-16, over the step; third derivatives are below 1 per mm2.
      expect(estimate(model, slopeAt(model, on, direction)).valueMm).toBeCloseTo(expected, 7);
    }
  });

  it('are as unsure as the difference of two near places is', () => {
    for (const { fromTipMm, across } of places) {
      const place = { blade: 'A', pass, fromTipMm, across } as const;
      const { uMm } = estimate(model, slopeAt(model, place, 'along'));
      const near = [-0.01, 0.01].map((mm) => pointFunctional(model, { ...place, fromTipMm: fromTipMm + mm }));
      const apart = combine([
        [1 / 0.02, near[1]!],
        [-1 / 0.02, near[0]!],
      ]);
      expect(estimate(model, apart).uMm / uMm).toBeCloseTo(1, 2);
    }
  });

  it('make maps that hold the same values as single places', () => {
    const grid = mapGrid(18, 7, 5);
    for (const direction of ['along', 'across'] as const) {
      const map = slopeMap(model, 'A', pass, grid, direction);
      grid.ysMm.forEach((fromTipMm, i) =>
        grid.us.forEach((across, j) => {
          const place = { blade: 'A', pass, fromTipMm, across } as const;
          const expected = estimate(model, slopeAt(model, place, direction));
          expect(map.valuesMm[i * 5 + j]).toBeCloseTo(expected.valueMm, 12);
          expect(map.uMm[i * 5 + j]).toBeCloseTo(expected.uMm, 9);
        }),
      );
    }
  });
});

describe('slopes of a known surface', () => {
  // 0.2 + 0.02 y + 0.001 y^2 - 0.05 u^2 on a blade of constant half-width 3 mm: every derivative is known.
  const known = (y: number, u: number) => 0.2 + 0.02 * y + 0.001 * y * y - 0.05 * u * u;
  const [pass] = passes;
  const readings = pass!.readings.map((reading) => ({
    ...reading,
    thicknessMm: known(reading.fromTipMm, reading.across),
  }));
  const even: FitPass = { ...pass!, halfWidthMm: () => 3, readings };
  const model = fitReed([even], { stepMm: 0.001, seating: { sdMm: 0.0005, from: 'declared' } });

  it.each([6.5, 9.4, 13.2])('are found within their doubt at %s mm', (fromTipMm) => {
    const place = { blade: 'A', pass: 0, fromTipMm, across: 0.3 } as const;
    const slopes = [
      [slopeAt(model, place, 'along'), 0.02 + 0.002 * fromTipMm],
      [slopeAt(model, place, 'across'), (-0.1 * 0.3) / 3],
    ] as const;
    for (const [functional, expected] of slopes) {
      const { valueMm, uMm } = estimate(model, functional);
      expect(Math.abs(valueMm - expected)).toBeLessThan(2 * uMm);
    }
    // Sure enough to tell the slope to a tenth of it.
    expect(estimate(model, slopes[0][0]).uMm).toBeLessThan(0.004);
  });
});

describe('the smallest believable change', () => {
  const { passes: many } = readSample('clip');
  const seating = { sdMm: 0.005, from: 'study' } as const;
  const model = fitReed(many, { seating, placementMm: 0.15 });
  const grid = mapGrid(model.passes[0]!.bladeLengthMm, 61, 31);
  const map = believableMap(model, 'A', 0, grid);
  const over = (from: number, to: number) =>
    believableOverMm(map, zoneArea(rectangleZone('part', from, to), model.passes[0]!))!;

  it('is a map: small on the heart, larger at the tip, largest on the blend', () => {
    const [tip, blend, heart] = [1.5, 4.5, 7].map((fromTipMm) =>
      believableAtMm(model, { blade: 'A', pass: 0, fromTipMm, across: 0 }),
    );
    // Common practice, no source: 0.02 to 0.025 at the tip, 0.035 to 0.055 on the blend, 0.015 to 0.02 on the heart.
    expect(heart).toBeLessThan(tip!);
    expect(tip).toBeLessThan(blend!);
    expect(blend).toBeGreaterThan(0.03);
    expect(blend).toBeLessThan(0.07);
    expect(heart).toBeGreaterThan(believableChangeMm(0.005));
    expect(heart).toBeLessThan(0.02);
  });

  it('has a usual size over a zone, between its least and its most there', () => {
    const [blend, heart] = [over(4, 5), over(6, 8)];
    expect(heart).toBeLessThan(blend);
    expect(heart).toBeGreaterThan(Math.min(...map.valuesMm));
    expect(blend).toBeLessThan(Math.max(...map.valuesMm));
    const even = { ...map, valuesMm: map.valuesMm.map(() => 0.02) };
    const area = zoneArea(rectangleZone('part', 4, 5), model.passes[0]!);
    expect(believableOverMm(even, area)).toBeCloseTo(0.02, 12);
  });

  it('holds at every place what two readings there would differ by 19 times in 20', () => {
    // Every fourth row, where the slope's doubt is found.
    for (const k of [131, 379, 876, 1372]) {
      const [i, j] = [Math.floor(k / 31), k % 31];
      const place = { blade: 'A', pass: 0, fromTipMm: grid.ysMm[i]!, across: grid.us[j]! } as const;
      expect(map.valuesMm[k]).toBeCloseTo(believableAtMm(model, place), 12);
      const square = (direction: Direction, share: number) => {
        const { valueMm, uMm } = estimate(model, slopeAt(model, place, direction));
        return valueMm ** 2 + (share * uMm) ** 2;
      };
      // Across is held by the tongue: a third of the placement along.
      const variance = 0.005 ** 2 + 0.15 ** 2 * square('along', 1) + 0.05 ** 2 * square('across', 0.6);
      expect(map.valuesMm[k]).toBeCloseTo(1.959964 * Math.sqrt(2 * variance), 7);
    }
  });

  it('is as near as a fiftieth between the rows where the slope’s doubt is found', () => {
    for (const k of [100, 431, 900, 1400, 1850]) {
      const [i, j] = [Math.floor(k / 31), k % 31];
      const place = { blade: 'A', pass: 0, fromTipMm: grid.ysMm[i]!, across: grid.us[j]! } as const;
      expect(Math.abs(map.valuesMm[k]! / believableAtMm(model, place) - 1)).toBeLessThan(0.02);
    }
  });

  it('is the same everywhere where a place is always found', () => {
    const still = believableMap(fitReed(many, { seating, placementMm: 0 }), 'A', 0, grid);
    for (const valueMm of still.valuesMm) expect(valueMm).toBeCloseTo(believableChangeMm(0.005), 12);
  });

  it('is none of a zone without area', () => {
    expect(believableOverMm(map, { nodes: [], areaMm2: 0 })).toBeUndefined();
  });
});
