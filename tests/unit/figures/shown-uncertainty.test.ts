import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { crossing, type Line } from '../../../src/figures/crossing.ts';
import { estimate, pointFunctional, valueMm } from '../../../src/figures/functional.ts';
import { removedByZone } from '../../../src/figures/removed.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import type { Functional, ReedModel } from '../../../src/surface/reed-model.ts';
import { readSample } from '../../read-sample.ts';

const { passes } = readSample('plain');
const model = fitReed(passes.slice(0, 2));
const single = fitReed(passes.slice(0, 1));

/** The model with one coefficient of a blade moved. */
function moved(of: ReedModel, blade: 'A' | 'B', k: number, byMm: number): ReedModel {
  const posterior = of.blades[blade]!;
  const mean = Float64Array.from(posterior.mean);
  mean[k]! += byMm;
  return { ...of, meanAfter: (name, pass) => (name === blade ? mean : of.meanAfter(name, pass)) };
}

/** Uncertainty of a figure by differences of its coefficients, no slope asked. Source: GUM 5.1, numerically as in 5.1.3 note 2. */
function uByDifferences(
  of: ReedModel,
  blades: readonly ('A' | 'B')[],
  figure: (one: ReedModel) => number,
): number {
  const byMm = 1e-5;
  const weights: Functional = Object.fromEntries(
    blades.map((blade) => [
      blade,
      [
        {
          pass: 0,
          weights: of.blades[blade]!.mean.map(
            (_, k) => (figure(moved(of, blade, k, byMm)) - figure(moved(of, blade, k, -byMm))) / (2 * byMm),
          ),
        },
      ],
    ]),
  );
  return estimate(of, weights).uMm;
}

describe('a crossing', () => {
  it.each<[string, Line]>([
    ['one blade', { blades: ['A'], across: 0 }],
    ['both blades', { blades: ['A', 'B'], across: 0.3 }],
  ])('on %s is as uncertain as moving its coefficients moves it', (_, line) => {
    const found = crossing(single, 0, line, 0.3)!;
    const expected = uByDifferences(single, line.blades, (one) => crossing(one, 0, line, 0.3)!.valueMm);
    expect(found.uMm / expected).toBeCloseTo(1, 3);
  });

  it('is found at the very end of the blade, and not beyond it', () => {
    const line: Line = { blades: ['A'], across: 0 };
    const { bladeLengthMm } = model.passes[1]!;
    const at = (fromTipMm: number) =>
      valueMm(model, pointFunctional(model, { blade: 'A', pass: 1, fromTipMm, across: 0 }));
    const thickest = Math.max(...Array.from({ length: 231 }, (_, k) => at((k * bladeLengthMm) / 230)));
    expect(at(bladeLengthMm)).toBe(thickest);
    expect(crossing(model, 1, line, at(bladeLengthMm - 0.05))!.valueMm).toBeCloseTo(bladeLengthMm - 0.05, 6);
    expect(crossing(model, 1, line, thickest + 0.001)).toBeUndefined();
    expect(crossing(model, 1, line, at(0))).toBeUndefined();
    expect(crossing(model, 1, line, at(0) + 0.01)!.valueMm).toBeGreaterThan(0);
  });
});

it('gives the volume that a zone lost as its mean loss times its area on the blade as it is', () => {
  // The sample is 7 - 0.09 y mm wide: 6.82 to 6.28 mm from 2 to 8 mm, 6 mm long.
  const zone = rectangleZone('any', 2, 8);
  const lost = removedByZone(model, { before: 0, after: 1 }, [zone], passes).A!.get('any')!;
  expect(lost.areaMm2).toBeCloseTo(6 * (7 - 0.09 * 5), 6);
  expect(lost.volumeMm3 / lost.mean.valueMm).toBeCloseTo(39.3, 6);
  expect(lost.uMm3 / lost.mean.uMm).toBeCloseTo(39.3, 6);
});
