import { describe, expect, it } from 'vitest';
import { estimate, pointFunctional } from '../../../src/figures/functional.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import type { ReedPosterior } from '../../../src/surface/reed-posterior.ts';
import { familyReed } from '../../generator/family-reed.ts';
import { readSample } from '../../read-sample.ts';

const [pass] = readSample('plain').passes;
const seating = { sdMm: 0.004, from: 'declared' } as const;
const heart = { blade: 'A', pass: 0, fromTipMm: 7, across: 0 } as const;
const heartOf = (readings: readonly FitReading[]) => {
  const model = fitReed([{ ...pass!, readings }], { seating, placementMm: 0.05 });
  return estimate(model, pointFunctional(model, heart));
};

describe('a station that was read more than once', () => {
  const once = heartOf(pass!.readings);

  it('makes its surroundings surer, and moves nothing where it reads the same', () => {
    const twice = heartOf([...pass!.readings, ...pass!.readings]);
    expect(twice.uMm).toBeLessThan(once.uMm);
    expect(Math.abs(twice.valueMm - once.valueMm)).toBeLessThan(once.uMm);
  });

  it('leaves the fit sound when it was read forty times', () => {
    const [one] = pass!.readings;
    const often = heartOf([...pass!.readings, ...Array.from({ length: 40 }, () => one!)]);
    expect(Math.abs(often.valueMm - once.valueMm)).toBeLessThan(once.uMm);
    expect(often.uMm).toBeLessThan(1.2 * once.uMm);
  });

  it('may be the only one', () => {
    const [one] = pass!.readings;
    const model = fitReed([{ ...pass!, readings: [one!, one!, one!] }], { seating });
    const { blade, fromTipMm, across } = one!;
    const there = estimate(model, pointFunctional(model, { blade, pass: 0, fromTipMm, across }));
    expect(Math.abs(there.valueMm - one!.thicknessMm)).toBeLessThan(2 * there.uMm);
    expect(there.uMm).toBeLessThan(0.02);
  });
});

describe('passes that were fitted before', () => {
  const { passes } = familyReed({
    ...{ family: 'place', gauge: 'dial', handMm: 0.15, extent: 'ragged', count: 11, seed: 995_002 },
  });
  const onA = passes.map((one) => ({ ...one, readings: one.readings.filter(({ blade }) => blade === 'A') }));

  it('rest on the same noise and the same priors to the last digit when an eleventh comes', () => {
    const [ten, eleven] = [onA.slice(0, 10), onA].map((some) => fitReed(some, { stepMm: 0.01 })) as [
      ReedPosterior,
      ReedPosterior,
    ];
    expect(eleven.noise).toEqual(ten.noise);
    const priors = ({ records }: ReedPosterior) => records.A!.steps.map(({ removal }) => removal);
    expect(priors(eleven).slice(0, 10)).toEqual(priors(ten));
    expect(eleven.layouts).toEqual(ten.layouts);
  });
});
