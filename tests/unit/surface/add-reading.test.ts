import { describe, expect, it } from 'vitest';
import { estimate, estimateJointly, pointFunctional } from '../../../src/figures/functional.ts';
import { meanOver, zoneArea } from '../../../src/figures/zone-mean.ts';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { addReading } from '../../../src/surface/add-reading.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { bladeEntries, fittedReed } from '../../../src/surface/reed-posterior.ts';
import type { FitReading, Functional, ReedModel } from '../../../src/surface/reed-model.ts';
import { readSample } from '../../read-sample.ts';

const { passes } = readSample('plain');
const two = passes.slice(0, 2);
const model = fitReed(two);
const reading = (blade: 'A' | 'B', fromTipMm: number, across: number, thicknessMm: number): FitReading => ({
  blade,
  fromTipMm,
  across,
  thicknessMm,
  repeats: 1,
  noiseFactor: 1,
});
const one = reading('A', 7, -0.6, 0.44);
const other = reading('B', 2.5, 0.2, 0.15);

function figures(of: ReedModel): Functional[] {
  return [
    pointFunctional(of, { blade: 'A', pass: 1, fromTipMm: 7, across: -0.5 }),
    pointFunctional(of, { blade: 'A', pass: 0, fromTipMm: 3, across: 0 }),
    pointFunctional(of, { blade: 'B', pass: 1, fromTipMm: 12, across: 0.4 }),
    meanOver(of, 'A', 1, zoneArea(rectangleZone('heart', 5.5, 8.5), of.passes[1]!))!,
  ];
}

describe('one more reading', () => {
  // Textbook conditioning of a joint normal: the figure moves by cov(figure, reading) / var(reading) times the surprise.
  it('moves every figure as conditioning on it does', () => {
    const after = addReading(model, 1, one)!;
    const seen = pointFunctional(model, {
      blade: 'A',
      pass: 1,
      fromTipMm: one.fromTipMm,
      across: one.across,
    });
    const slopeZ = -estimate(model, {
      ...pointFunctional(model, {
        blade: 'A',
        pass: 1,
        fromTipMm: one.fromTipMm,
        across: one.across,
        derivative: 'along',
      }),
    }).valueMm;
    const slopeU = estimate(
      model,
      pointFunctional(model, { blade: 'A', pass: 1, fromTipMm: 7, across: -0.6, derivative: 'across' }),
    ).valueMm;
    const s = model.sharedMean.length;
    const effects = new Float64Array(s);
    effects.set([1, one.thicknessMm, slopeZ], 3);
    const loadOf = (functional: Functional) => {
      const load = new Float64Array(s);
      for (const blade of ['A', 'B'] as const)
        functional[blade]?.forEach(({ pass, weights }) =>
          weights.forEach((w, i) => {
            for (let j = 0; j < s; j++) load[j]! += w * model.after(blade, pass).loadings[i * s + j]!;
          }),
        );
      return load;
    };
    const withEffects = (load: Float64Array) =>
      effects.reduce(
        (sum, e, j) =>
          sum + e * load.reduce((inner, l, k) => inner + model.sharedCovariance[j * s + k]! * l, 0),
        0,
      );
    const { noise } = model;
    const half = two[1]!.halfWidthMm(one.fromTipMm);
    const own =
      noise.seatingMm ** 2 +
      // What a fit leaves open of the slopes where passes are compared, mm per mm.
      (slopeZ ** 2 + 0.01 ** 2) * noise.alongMm ** 2 +
      ((slopeU / half) ** 2 + 0.03 ** 2) * noise.acrossMm ** 2;
    const seenVariance = estimate(model, seen).uMm ** 2;
    const variance = seenVariance + 2 * withEffects(loadOf(seen)) + withEffects(effects) + own;
    const expected =
      estimate(model, seen).valueMm + effects.reduce((sum, e, j) => sum + e * model.sharedMean[j]!, 0);
    figures(model).forEach((figure, i) => {
      const covariance = estimateJointly(model, [figure, seen]).covariance[1]! + withEffects(loadOf(figure));
      const before = estimate(model, figure);
      const now = estimate(after, figures(after)[i]!);
      const factor = covariance / variance;
      expect(now.valueMm).toBeCloseTo(before.valueMm + factor * (one.thicknessMm - expected), 10);
      expect(now.uMm ** 2).toBeCloseTo(before.uMm ** 2 - factor * covariance, 12);
    });
  });

  it('never makes a figure less sure', () => {
    const after = addReading(addReading(model, 1, one)!, 1, other)!;
    figures(model).forEach((figure, i) => {
      expect(estimate(after, figures(after)[i]!).uMm).toBeLessThanOrEqual(estimate(model, figure).uMm);
    });
  });

  it('keeps one covariance, as a sum and written out', () => {
    const after = addReading(addReading(addReading(model, 1, one)!, 1, other)!, 1, { ...one, across: 0.1 })!;
    const written = fittedReed(after.passes, {
      ...after,
      blades: Object.fromEntries(
        bladeEntries(after.blades).map(([blade, { mean, covariance, loadings }]) => [
          blade,
          { mean, covariance, loadings },
        ]),
      ),
    });
    const summed = estimateJointly(after, figures(after)).covariance;
    estimateJointly(written, figures(after)).covariance.forEach((value, k) =>
      expect(summed[k]).toBeCloseTo(value, 15),
    );
    figures(after).forEach((figure, i) =>
      expect(estimate(written, figure).uMm ** 2).toBeCloseTo(summed[i * figures(after).length + i]!, 15),
    );
  });

  it('counts as much as its repeats', () => {
    const place = { blade: 'A', pass: 1, fromTipMm: 7, across: -0.6 } as const;
    const u = [1, 4, 100].map((repeats) => {
      const after = addReading(model, 1, { ...one, repeats })!;
      return estimate(after, pointFunctional(after, place)).uMm;
    });
    expect(u[1]).toBeLessThan(u[0]!);
    expect(u[2]).toBeLessThan(u[1]!);
  });

  it('opens a later pass, and leaves the one before as it was', () => {
    const three = [...two, { ...passes[2]!, readings: [] }];
    const open = fitReed(three);
    const after = addReading(open, 2, one)!;
    const at = (pass: number) => ({ blade: 'A', pass, fromTipMm: 7, across: -0.6 }) as const;
    const unread = { blade: 'A', pass: 2, fromTipMm: 16, across: 0 } as const;
    expect(estimate(after, pointFunctional(after, at(2))).valueMm).toBeCloseTo(0.44, 2);
    const [before, now] = [open, after].map((m) => estimate(m, pointFunctional(m, unread)));
    expect(now!.valueMm).toBeCloseTo(before!.valueMm, 3);
    expect(now!.uMm).toBeGreaterThanOrEqual(before!.uMm);
  });

  it('asks for a new fit where it would open a blade or an earlier pass', () => {
    const onlyA = fitReed([{ ...two[0]!, readings: two[0]!.readings.filter(({ blade }) => blade === 'A') }]);
    expect(addReading(onlyA, 0, other)).toBeUndefined();
    const gap = fitReed([two[0]!, { ...two[1]!, readings: [] }, passes[2]!]);
    expect(addReading(gap, 1, one)).toBeUndefined();
  });

  it('lands where a new fit lands', () => {
    const last = two[1]!.readings.find(({ blade, fromTipMm }) => blade === 'A' && fromTipMm === 8)!;
    const without = fitReed([two[0]!, { ...two[1]!, readings: two[1]!.readings.filter((r) => r !== last) }]);
    const place = { blade: 'A', pass: 1, fromTipMm: last.fromTipMm, across: last.across } as const;
    const added = addReading(without, 1, last)!;
    const difference =
      estimate(added, pointFunctional(added, place)).valueMm -
      estimate(model, pointFunctional(model, place)).valueMm;
    // Only the smoothing differs, which one reading hardly moves.
    expect(Math.abs(difference)).toBeLessThan(0.0015);
  });
});
