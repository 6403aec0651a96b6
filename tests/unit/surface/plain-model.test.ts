import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { fitPlainly } from '../../../src/surface/plain-model.ts';
import { fitSurface } from '../../../src/surface/penalised-surface.ts';
import type { FitPass, FitReading } from '../../../src/surface/reed-model.ts';
import { addSparse } from '../../../src/numerics/sparse-row.ts';
import { coefficientCount, designRow } from '../../../src/surface/tensor-basis.ts';
import { dot } from '../../../src/numerics/quadratic-form.ts';
import { readSample } from '../../read-sample.ts';

const pass = readSample('plain').passes[1]!;
const zone = rectangleZone('heart', 5.5, 8.5);
const changed = (change: (reading: FitReading) => FitReading): FitPass => ({
  ...pass,
  readings: pass.readings.map(change),
});
const model = fitPlainly(pass);
const coefficient = fc.double({ min: -0.05, max: 0.05, noNaN: true });
const log = fc.double({ min: -8, max: 8, noNaN: true });
const place = fc.record({
  fromTipMm: fc.double({ min: 0, max: 22, noNaN: true }),
  across: fc.double({ min: -1, max: 1, noNaN: true }),
});

describe('the plain surface', () => {
  it('reproduces a plane, tilted or twisted, exactly, whatever the smoothing', () => {
    const basis = {
      along: { from: 0, to: 23, count: 12 },
      across: { from: -1, to: 1, count: 5 },
    };
    const readings = pass.readings.filter(({ blade }) => blade === 'A');
    const ys = readings.map(({ fromTipMm }) => fromTipMm);
    const us = readings.map(({ across }) => across);
    fc.assert(
      fc.property(coefficient, coefficient, coefficient, log, log, place, (a, b, c, along, across, at) => {
        const plane = (y: number, u: number) => 0.3 + a * y + b * u + c * y * u;
        const smoothing = { along: Math.exp(along), across: Math.exp(across) };
        const t = ys.map((y, i) => plane(y, us[i]!));
        const { theta } = fitSurface({ y: ys, u: us, t }, basis, smoothing);
        const weights = new Float64Array(coefficientCount(basis));
        addSparse(weights, designRow(basis, at.fromTipMm, at.across), 1);
        expect(Math.abs(dot(weights, theta) - plane(at.fromTipMm, at.across))).toBeLessThan(1e-8);
      }),
      { numRuns: 40 },
    );
  });

  it('has the slopes of its own heights, down the blade and across it', () => {
    const value = (fromTipMm: number, across: number, derivative?: 'along' | 'across') => {
      const weights = new Float64Array(model.blades.A!.mean.length);
      const where = { blade: 'A', pass: 0, fromTipMm, across, ...(derivative && { derivative }) } as const;
      model.addWeights(weights, where, 1);
      return dot(weights, model.blades.A!.mean);
    };
    const h = 1e-4;
    for (const [y, u] of [
      [2, 0.3],
      [11, -0.5],
    ] as const) {
      const along = (value(y + h, u) - value(y - h, u)) / (2 * h);
      const across = (value(y, u + h) - value(y, u - h)) / (2 * h);
      // Differences of cubics err by their third derivative times h^2 / 6.
      expect(Math.abs(value(y, u, 'along') - along)).toBeLessThan(1e-7);
      expect(Math.abs(value(y, u, 'across') - across)).toBeLessThan(1e-7);
      expect(Math.abs(along)).toBeGreaterThan(1e-4);
      expect(Math.abs(across)).toBeGreaterThan(1e-4);
    }
  });

  it('scales and shifts with its readings, and so does its uncertainty', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        fc.double({ min: -0.05, max: 0.5, noNaN: true }),
        place,
        (scale, shift, at) => {
          const other = fitPlainly(changed((r) => ({ ...r, thicknessMm: scale * r.thicknessMm + shift })));
          const figure = { blade: 'A', pass: 0, ...at } as const;
          const [one, two] = [model, other].map((of) => estimate(of, pointFunctional(of, figure)));
          expect(Math.abs(two!.valueMm - scale * one!.valueMm - shift)).toBeLessThan(1e-6);
          expect(Math.abs(two!.uMm / (scale * one!.uMm) - 1)).toBeLessThan(1e-4);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('turns its figures round with the readings', () => {
    const mirrored = fitPlainly(changed((r) => ({ ...r, across: 0 - r.across })));
    const [one, two] = [model, mirrored].map((of) => zoneFigures(of, 0, zone));
    expect(two!.balance!.hand.valueMm).toBeCloseTo(-one!.balance!.hand.valueMm, 8);
    expect(two!.balance!.hand.uMm).toBeCloseTo(one!.balance!.hand.uMm, 8);
  });

  it('flips the contrasts of the blades when they are swapped', () => {
    const swapped = fitPlainly(changed((r) => ({ ...r, blade: r.blade === 'A' ? 'B' : 'A' })));
    const [one, two] = [model, swapped].map((of) => zoneFigures(of, 0, zone).balance!);
    expect(two!.blade.valueMm).toBeCloseTo(-one!.blade.valueMm, 12);
    expect(two!.side.valueMm).toBeCloseTo(-one!.side.valueMm, 12);
    expect(two!.hand.valueMm).toBeCloseTo(one!.hand.valueMm, 12);
  });

  it('asks for more readings, and for a blade that was read', () => {
    expect(() => fitPlainly({ ...pass, readings: pass.readings.slice(0, 3) })).toThrow('at least 6');
    const only = fitPlainly({ ...pass, readings: pass.readings.filter((r) => r.blade === 'A') });
    const at = { blade: 'B', pass: 0, fromTipMm: 5, across: 0 } as const;
    expect(() => pointFunctional(only, at)).toThrow('B was never read');
  });
});
