import { describe, expect, it } from 'vitest';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { faultOptions } from '../../../src/faults/judged-passes.ts';
import { driftOfFirst } from '../../../src/faults/first-drift.ts';
import { correctedReadings } from '../../../src/reed/corrected-readings.ts';
import { placesReadTwice } from '../../../src/reed/read-twice.ts';
import { familyReed, type FamilyPass } from '../../generator/family-reed.ts';

const STEP_MM = 0.01;
const shown = (mm: number) => Math.max(STEP_MM, Math.round(mm / STEP_MM) * STEP_MM);
const timed = (pass: FamilyPass): FamilyPass => ({
  ...pass,
  readings: pass.readings.map((one, i, all) => ({ ...one, time: i / (all.length - 1) })),
});
const drifted = (pass: FamilyPass, driftMm: number): FamilyPass => ({
  ...pass,
  readings: pass.readings.map((one) => ({
    ...one,
    thicknessMm: shown(one.thicknessMm + driftMm * one.time!),
  })),
});
// Families that nothing was tuned on, read by a dial in two passes.
const reeds = (['place', 'spine', 'rails', 'thin', 'mixed', 'soft bark'] as const).map((family, k) => {
  const settings = { family, gauge: 'dial', extent: 'full', count: 2 } as const;
  return familyReed({ ...settings, handMm: [0.05, 0.25][k % 2]!, seed: 982_001 + k }).passes.map(timed);
});
const lastOf = (passes: readonly FamilyPass[]) =>
  findFaults(passes, faultOptions({ passes, options: { stepMm: STEP_MM } })).at(-1)!.faults;

describe('a zero that creeps while a pass is read', () => {
  it.each([0.025, -0.025])('by %d mm is found with its size by the cane before it', (driftMm) => {
    const found = reeds.map(([first, second]) =>
      lastOf([first!, drifted(second!, driftMm)]).find(({ kind }) => kind === 'drift'),
    );
    expect(found.filter(Boolean).length).toBeGreaterThanOrEqual(0.8 * reeds.length);
    const within = found.filter((fault) => fault && Math.abs(fault.valueMm! - driftMm) <= 1.96 * fault.uMm!);
    expect(within.length).toBeGreaterThanOrEqual(0.8 * reeds.length);
    // Cane that grew is named; cane that left may have been scraped.
    const grades = new Set(found.map((fault) => fault?.grade));
    expect(grades.has('named')).toBe(driftMm > 0);
  });

  it('is not found where there is none', () => {
    expect(reeds.flatMap(lastOf).filter(({ kind }) => kind === 'drift')).toEqual([]);
  });

  it('is told in a first pass by places that are read again at its end', () => {
    const [pass] = reeds[0]!;
    const twice = [8, 10, 12].map((fromTipMm) => ({
      ...({ blade: 'A', fromTipMm, across: 0, apart: 0.8 } as const),
      grewMm: 0.02,
    }));
    const noise = { seatingMm: 0.004, placementMm: 0 };
    const [fault] = driftOfFirst({ ...pass!, readTwice: twice }, noise);
    // By hand: 0.02 over 0.8 of the pass; 0.004 sqrt(2) / 0.8 / sqrt(3).
    expect(fault).toMatchObject({ kind: 'drift', grade: 'named', remedy: { kind: 'drift', driftMm: 0.025 } });
    expect(fault!.uMm).toBeCloseTo((0.004 * Math.SQRT2) / 0.8 / Math.sqrt(3), 4);
    expect(driftOfFirst({ ...pass!, readTwice: twice.slice(0, 1) }, noise)).toEqual([]);
    expect(
      driftOfFirst({ ...pass!, readTwice: twice.map((one) => ({ ...one, grewMm: 0.003 })) }, noise),
    ).toEqual([]);
  });
});

const reading = (fromTipMm: number, thicknessMm: number, seconds: number, repeat = 0) =>
  ({ blade: 'A', fromTipMm, across: 0, thicknessMm, seconds, repeat, flag: 'ok', role: 'station' }) as const;

describe('places read early and again late', () => {
  const readings = [
    reading(8, 0.45, 0),
    reading(10, 0.46, 50),
    reading(12, 0.5, 95),
    reading(8, 0.47, 100, 1),
  ];
  const pass = { readings, remedies: [] };

  it('are those that time lies between, and no quick repeats', () => {
    const gauge = { stepMm: STEP_MM };
    const [one, ...others] = placesReadTwice(correctedReadings(pass, gauge));
    expect(others).toEqual([]);
    expect(one).toMatchObject({ blade: 'A', fromTipMm: 8, across: 0, apart: 1 });
    expect(one!.grewMm).toBeCloseTo(0.02, 12);
    const quick = {
      ...pass,
      readings: [...readings.slice(0, 1), reading(8, 0.47, 4, 1), ...readings.slice(1)],
    };
    expect(
      placesReadTwice(correctedReadings({ ...quick, readings: quick.readings.slice(0, -1) }, gauge)),
    ).toEqual([]);
  });

  it('agree once a drift is put right: the first reading stays, the last gives it all, others in step', () => {
    const remedy = { kind: 'drift', driftMm: 0.02 } as const;
    const right = correctedReadings({ ...pass, remedies: [remedy] }, { stepMm: STEP_MM });
    const by = right.map(({ thicknessMm }, i) => readings[i]!.thicknessMm - thicknessMm);
    [0, 0.01, 0.019, 0.02].forEach((mm, i) => expect(by[i]).toBeCloseTo(mm, 12));
    expect(placesReadTwice(right)[0]!.grewMm).toBeCloseTo(0, 12);
  });
});
