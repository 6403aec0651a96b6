import { describe, expect, it } from 'vitest';
import { explain, type Cane, type JudgedPass } from '../../../src/faults/explanation.ts';
import { findFaults } from '../../../src/faults/find-faults.ts';
import { untouchedMoved } from '../../../src/faults/untouched-cane.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';

const CANE_MM = 0.6;
const U_MM = 0.003;
const NOISE = { seatingMm: 0.004, placementMm: 0 };
/** Two controls, each to hypot(0.003, 0.004) = 0.005 mm; swelling from pass to pass 0.005 of 0.6 mm. */
const SD = Math.hypot(0.005 / CANE_MM / Math.SQRT2, 0.005);
const column = {
  ...{ fromMm: 40, mm: Float64Array.of(CANE_MM, CANE_MM), uMm: Float64Array.of(U_MM, U_MM) },
  hull: [40, 60] as const,
};
const control = (thicknessMm: number, fromTipMm = 20): FitReading => ({
  ...{ blade: 'A', fromTipMm, across: 0, thicknessMm, noiseFactor: 1, repeats: 1 },
});
const pass = (thicknessMm: number, soakMin?: number): JudgedPass => ({
  ...{ index: 1, overallLengthMm: 70, readings: [], controls: [control(thicknessMm), control(thicknessMm)] },
  ...(soakMin !== undefined && { soakMin }),
});
const moved = (sds: number, soakMin?: number, before?: number, held: 'zero' | 'shifted' = 'shifted') => {
  const cane: Cane = {
    ...{ stations: () => undefined, controls: () => column },
    ...(before !== undefined && { soakMin: before }),
  };
  const one = pass(CANE_MM * (1 + sds * SD), soakMin);
  const said = explain(one, cane, NOISE, held === 'zero' ? [{ kind: 'zero', blade: 'both' }] : []);
  return untouchedMoved(one, cane, NOISE, said);
};

describe('untouched cane that moved', () => {
  it('is told from 2.3 standard deviations on, either way', () => {
    for (const sign of [1, -1]) {
      expect(moved(sign * 2.28)).toBeUndefined();
      expect(moved(sign * 2.32)!.evidence).toBeCloseTo(2.32 ** 2 / 2, 6);
    }
    expect(moved(4, undefined, undefined, 'zero')).toBeUndefined();
  });

  it('is told from 1.8 on where it was soaked half as long again, or the other way round', () => {
    expect(moved(1.82, 16, 10)).toBeDefined();
    expect(moved(1.78, 16, 10)).toBeUndefined();
    expect(moved(1.9, 14.9, 10)).toBeUndefined();
    expect(moved(-1.82, 16, 10)).toBeUndefined();
    expect(moved(-1.82, 6.6, 10)).toBeDefined();
    expect(moved(-1.9, 6.7, 10)).toBeUndefined();
    expect(moved(1.9, 6.6, 10)).toBeUndefined();
    expect(moved(1.9, undefined, 10)).toBeUndefined();
    expect(moved(1.9, 16)).toBeUndefined();
  });

  it('swelled, where a moved zero explains it no better by 1.5', () => {
    // On untouched cane of one thickness the two explain it alike.
    expect(moved(3)!.suspicion).toEqual({ kind: 'swelling', blade: 'both' });
  });
});

it('a pass without a station tells nothing of the cane, one with a single station does', () => {
  const station = (fromTipMm: number) => control(0.3 + 0.01 * fromTipMm, fromTipMm);
  const rows = [2, 4, 6, 8, 10, 12].map(station);
  const of = (index: number, readings: FitReading[], ...mm: number[]): JudgedPass => ({
    ...{ index, overallLengthMm: 70, readings, controls: mm.map((one) => control(one, 22)) },
  });
  const found = (...first: FitReading[]) =>
    findFaults([of(0, first, 0.52, 0.52, 0.52, 0.52), of(1, rows, 0.6, 0.6), of(2, rows, 0.6, 0.6)], {
      stepMm: 0.01,
    }).map(({ faults }) => faults.length > 0);
  expect(found()).toEqual([false, false, false]);
  expect(found(station(8))[1]).toBe(true);
});
