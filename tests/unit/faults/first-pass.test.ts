import { describe, expect, it } from 'vitest';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { oddFirstReadings } from '../../../src/faults/first-pass.ts';
import { seededRandom } from '../../seeded-random.ts';
import { familyReed, type FamilyPass } from '../../generator/family-reed.ts';

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

/** The pass with one reading, drawn by chance, written wrong; undefined where that changes next to nothing. */
function withSlip(pass: FamilyPass, seed: number, wrongMm: (mm: number) => number) {
  const at = Math.floor(seededRandom(seed)() * pass.readings.length);
  const right = pass.readings[at]!;
  const thicknessMm = Math.round(wrongMm(right.thicknessMm) / STEP_MM) * STEP_MM;
  if (thicknessMm <= 0 || Math.abs(thicknessMm - right.thicknessMm) < 0.05) return undefined;
  const readings = pass.readings.map((one, i) => (i === at ? { ...one, thicknessMm } : one));
  return { right, pass: { ...pass, readings } };
}

const turned = (mm: number) => {
  const shown = Math.round(100 * mm);
  return ((shown % 10) * 10 + Math.floor(shown / 10)) / 100;
};

describe('a slip in the very first pass', () => {
  const told = (wrongMm: (mm: number) => number) =>
    passes.flatMap(({ handMm, pass }, k) => {
      const slipped = withSlip(pass, 900 + k, wrongMm);
      if (!slipped) return [];
      const { blade, fromTipMm, across } = slipped.right;
      const odd = oddFirstReadings(slipped.pass, noiseOf(handMm), STEP_MM).find(
        ({ reading }) =>
          reading.blade === blade && reading.fromTipMm === fromTipMm && reading.across === across,
      );
      return { odd, rightMm: slipped.right.thicknessMm };
    });

  it.each([
    ['a tenth too much', (mm: number) => mm + 0.1],
    ['digits turned', turned],
  ])('is told in nine of ten: %s', (_, wrongMm) => {
    const cases = told(wrongMm);
    expect(cases.length).toBeGreaterThan(10);
    expect(cases.filter(({ odd }) => odd).length / cases.length).toBeGreaterThanOrEqual(0.9);
    // What was meant is what was there, wherever a meaning is given.
    const meant = cases.flatMap(({ odd, rightMm }) =>
      odd?.meantMm === undefined ? [] : [odd.meantMm - rightMm],
    );
    expect(meant.filter((off) => Math.abs(off) < 1e-6).length / meant.length).toBeGreaterThanOrEqual(0.9);
  });

  it('is asked of few clean first passes, and named of none', () => {
    const found = passes.map(({ handMm, pass }) => oddFirstReadings(pass, noiseOf(handMm), STEP_MM));
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
