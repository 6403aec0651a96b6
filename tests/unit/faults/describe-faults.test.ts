import { describe, expect, it } from 'vitest';
import { describeFaults, describeOdd } from '../../../src/faults/describe-faults.ts';
import type { Change } from '../../../src/faults/explanation.ts';
import type { Finding, Found, Judgement } from '../../../src/faults/judge-pass.ts';
import type { OddReading } from '../../../src/faults/single-readings.ts';
import type { Labelling, OffsetSuspicion } from '../../../src/faults/suspicion.ts';

const change = (fromTipMm: number, across: number, changeMm: number, uMm: number): Change => ({
  reading: { blade: 'A', fromTipMm, across, thicknessMm: 0.5, repeats: 1, noiseFactor: 1 },
  ...{ expectedMm: 0.5 - changeMm, changeMm, uMm },
});
const found = (suspicion: Found['suspicion'], amount = 0, u = 0): Found => ({
  ...{ suspicion, amount, u, grade: 'named', evidence: 7 },
});
const offset = (kind: OffsetSuspicion['kind'], blade: OffsetSuspicion['blade'], amount = 0, u = 0) =>
  found({ kind, blade }, amount, u);
const labels = (labelling: Labelling) => found({ kind: 'labels', labelling });

const told = (
  findings: readonly Finding[],
  changes: readonly Change[] = [],
  odd: readonly OddReading[] = [],
) => describeFaults(3, { findings, explanation: { changes } } as unknown as Judgement, odd);
const faultsOf = (one: Found, ...rivals: Found[]) => told([{ ...one, rivals }]).faults;
const sure = { grade: 'named', evidence: 7 } as const;

describe('what is wrong with a whole pass', () => {
  it('is a zero to a thousandth of a mm, its doubt to a tenth of one', () => {
    expect(faultsOf(offset('zero', 'A', 0.02049, 0.00326))).toEqual([
      {
        ...{ kind: 'zero', blade: 'A', ...sure, valueMm: 0.02, uMm: 0.0033 },
        remedy: { kind: 'zero', blade: 'A', addedMm: 0.02 },
      },
    ]);
  });

  it('is a drift of as many digits', () => {
    expect(faultsOf(offset('drift', 'both', -0.0307, 0.00411))).toEqual([
      {
        ...{ kind: 'drift', blade: 'both', ...sure, valueMm: -0.031, uMm: 0.0041 },
        remedy: { kind: 'drift', driftMm: -0.031 },
      },
    ]);
  });

  it('is swelling as a factor to a thousandth', () => {
    expect(faultsOf(offset('swelling', 'both', 0.01743))).toEqual([
      {
        ...{ kind: 'swelling', blade: 'both', ...sure, factor: 1.017 },
        remedy: { kind: 'swelling', blade: 'both', factor: 1.017 },
      },
    ]);
  });

  it('is a clip or a shift where both blades are read nearer the tip, to a hundredth of a mm', () => {
    const shifted = (blade: string, shiftMm: number) => ({
      ...{ kind: 'shifted', blade, ...sure, valueMm: shiftMm, uMm: 0.083 },
      remedy: { kind: 'shifted', blade, shiftMm },
    });
    expect(faultsOf(offset('shifted', 'both', 0.4049, 0.0831))).toEqual([
      {
        ...{ kind: 'clip', blade: 'both', ...sure, valueMm: 0.4, uMm: 0.083, orElse: ['shifted'] },
        remedy: { kind: 'clip', clipMm: 0.4 },
      },
      { ...shifted('both', 0.4), orElse: ['clip'] },
    ]);
    expect(faultsOf(offset('shifted', 'both', -0.4, 0.083))).toEqual([shifted('both', -0.4)]);
    expect(faultsOf(offset('shifted', 'B', 0.4, 0.083))).toEqual([shifted('B', 0.4)]);
    expect(faultsOf(offset('shifted', 'both', 0, 0.083)).map(({ kind }) => kind)).toEqual([
      'clip',
      'shifted',
    ]);
  });

  it('is one of several where rivals explain it as well', () => {
    const both = faultsOf(offset('zero', 'both', 0.02), offset('shifted', 'A', 0.3));
    expect(both.map(({ kind, orElse }) => [kind, orElse])).toEqual([
      ['zero', ['shifted']],
      ['shifted', ['zero']],
    ]);
  });

  it('is a wrong label, mirrored before swapped', () => {
    const of = (labelling: Labelling) => faultsOf(labels(labelling));
    const swapped = { kind: 'swapped', blade: 'both', ...sure, remedy: { kind: 'swapped' } };
    const mirrored = (blade: string) => ({
      kind: 'mirrored',
      blade,
      ...sure,
      remedy: { kind: 'mirrored', blade },
    });
    expect(of({ swapped: true, mirrored: [] })).toEqual([swapped]);
    expect(of({ swapped: false, mirrored: ['B'] })).toEqual([mirrored('B')]);
    expect(of({ swapped: true, mirrored: ['A', 'B'] })).toEqual([mirrored('both'), swapped]);
  });
});

const odd = (more: Partial<OddReading>): OddReading => ({
  ...{ reading: change(5, -0.4, 0, 1).reading, expectedMm: 0.43219, sds: 6, grade: 'asked', ...more },
});
const place = { fromTipMm: 5, across: -0.4 };
const slip = { kind: 'digits', blade: 'A', grade: 'asked', evidence: 6, place, expectedMm: 0.432 };
const dig = { blade: 'A', ...place, readMm: 0.5, expectedMm: 0.432 };

describe('what is wrong with a reading', () => {
  it('is a slip, with its remedy where it is known what was meant', () => {
    const of = (one: Partial<OddReading>) => told([], [], [odd(one)]);
    expect(of({})).toEqual({ index: 3, faults: [slip], readAgain: [] });
    const remedy = { kind: 'digits', blade: 'A', ...place, thicknessMm: 0.43 };
    expect(of({ sds: -6, meantMm: 0.43 + 1e-9 }).faults).toEqual([{ ...slip, valueMm: 0.43, remedy }]);
  });

  it('is read again where it is low and nothing else was meant, in doubt where no knife was before', () => {
    expect(told([], [], [odd({ sds: -6 })])).toEqual({ index: 3, faults: [], readAgain: [dig] });
    expect(describeOdd(2, [odd({ sds: -6 }), odd({})])).toEqual({
      ...{ index: 2, faults: [slip], readAgain: [{ ...dig, inDoubt: true }] },
    });
  });
});

describe('growth that no finding explains', () => {
  /** Readings that together are sure to 0.0015 mm; with the 0.002 mm that a region shares, 0.0025 mm. */
  const pooled = (mm: number) =>
    told(
      [],
      Array.from({ length: 9 }, () => change(5, 0.5, mm, 0.0045)),
    ).faults.map(({ grade, evidence }) => [grade, evidence]);

  it('is asked from five standard deviations and 0.012 mm on, and named from seven', () => {
    expect(pooled(0.0119)).toEqual([]);
    expect(pooled(0.0124)).toEqual([]);
    expect(pooled(0.0126)).toEqual([['asked', expect.closeTo(5.04, 9)]]);
    expect(pooled(0.0174)).toEqual([['asked', expect.closeTo(6.96, 9)]]);
    expect(pooled(0.0176)).toEqual([['named', expect.closeTo(7.04, 9)]]);
    // Surer than 0.0024 mm, 0.0119 mm are more than five of them.
    const surer = (mm: number) =>
      told(
        [],
        Array.from({ length: 16 }, () => change(5, 0.5, mm, 0.004)),
      ).faults.length;
    expect([surer(0.0119), surer(0.0121)]).toEqual([0, 1]);
  });

  it('is placed at the mean of its readings, on the side that grew', () => {
    const sized = (across: number) =>
      told(
        [],
        [4, 6.24].flatMap((y) => Array.from({ length: 6 }, () => change(y, across, 0.0204, 0.006))),
      ).faults;
    expect(sized(-0.3)).toMatchObject([
      { kind: 'increase', blade: 'A', valueMm: 0.02, place: { fromTipMm: 5.1, across: -0.6 } },
    ]);
    expect(sized(0)[0]!.place).toEqual({ fromTipMm: 5.1, across: 0 });
  });

  it('is not that of a reading which is odd by itself', () => {
    const changes = Array.from({ length: 9 }, () => change(5, 0.5, 0.02, 0.0045));
    const except = changes.map(({ reading }) => odd({ reading }));
    expect(told([], changes).faults).toHaveLength(1);
    const one = odd({ reading: changes[0]!.reading });
    expect(told([], changes, [one]).faults.map(({ kind }) => kind)).toEqual(['digits', 'increase']);
    expect(told([], changes, except).faults.filter(({ kind }) => kind === 'increase')).toEqual([]);
  });
});
