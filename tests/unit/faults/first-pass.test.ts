import { describe, expect, it } from 'vitest';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { oddFirstReadings } from '../../../src/faults/first-pass.ts';
import { studySlips } from '../../study/slips-study.ts';
import { familyReed } from '../../generator/family-reed.ts';

const FAMILIES = ['place', 'spine', 'rails', 'thin', 'soft bark', 'mixed'] as const;
const STEP_MM = 0.01;
const passes = [0.05, 0.15, 0.25].flatMap((handMm) =>
  FAMILIES.map((family, k) => {
    const seed = 71_000 + k + 100 * handMm * 100;
    const reed = familyReed({ family, gauge: 'dial', handMm, extent: 'full', seed, count: 1 });
    return { handMm, pass: reed.passes[0]! };
  }),
);
const noiseOf = (handMm: number) => ({ seatingMm: 0.0049, placementMm: Math.max(0.1, handMm) });

describe('a slip in the very first pass', () => {
  // Families that nothing was tuned on, every hand, both gauges.
  const studied = (['place', 'rails', 'thin', 'soft bark'] as const).flatMap((family, k) =>
    [0.05, 0.15, 0.25].map((handMm, hand) =>
      studySlips({ family, gauge: (k + hand) % 2 ? 'dial' : 'fine', handMm }, 71_000 + 10 * k + hand, 1),
    ),
  );
  const slips = studied.flatMap((study) => study.slips);

  it('is told in nine of ten: tenths, thirds, digits turned, lost and doubled', () => {
    expect(new Set(slips.map(({ kind }) => kind)).size).toBe(5);
    expect(slips.filter(({ odd }) => odd).length / slips.length).toBeGreaterThanOrEqual(0.9);
  });

  it('gives what was there as what was meant, wherever a meaning is given', () => {
    const meant = slips.flatMap(({ kind, odd, rightMm }) =>
      odd?.meantMm === undefined || (kind !== 'tenth' && kind !== 'turned') ? [] : [odd.meantMm - rightMm],
    );
    expect(meant.length).toBeGreaterThan(10);
    expect(meant.filter((off) => Math.abs(off) < 1e-6).length / meant.length).toBeGreaterThanOrEqual(0.9);
  });

  it('is asked of few clean first passes, and named of none', () => {
    const found = [
      ...studied.flatMap(({ clean }) => clean),
      ...passes.map(({ handMm, pass }) => oddFirstReadings(pass, noiseOf(handMm), STEP_MM)),
    ];
    expect(found.filter(({ length }) => length > 0).length).toBeLessThanOrEqual(1);
    expect(found.flat().filter(({ grade }) => grade === 'named')).toEqual([]);
  });

  it('is a fault with its remedy, and the pass after is judged by what was meant', () => {
    const reed = familyReed({
      ...{ family: 'usual', gauge: 'dial', handMm: 0.1, extent: 'full', seed: 5, count: 2 },
    });
    const [first, second] = reed.passes;
    const slip = first!.readings.findIndex(
      ({ blade, fromTipMm, across }) => blade === 'A' && fromTipMm === 10 && across === 0,
    );
    const right = first!.readings[slip]!;
    const readings = first!.readings.map((one, i) =>
      i === slip ? { ...one, thicknessMm: one.thicknessMm + 0.1 } : one,
    );
    const [found, next] = findFaults([{ ...first!, readings }, second!], { stepMm: STEP_MM });
    expect(found!.faults).toMatchObject([
      { kind: 'digits', blade: 'A', grade: 'named', place: { fromTipMm: 10, across: 0 } },
    ]);
    expect(found!.faults[0]!.valueMm).toBeCloseTo(right.thicknessMm, 6);
    expect(next!.faults).toEqual([]);
  });

  it('is not looked for among few readings', () => {
    const few = { ...passes[0]!.pass, readings: passes[0]!.pass.readings.slice(0, 20) };
    expect(oddFirstReadings(few, noiseOf(0.05), STEP_MM)).toEqual([]);
  });
});
