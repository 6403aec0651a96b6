import { describe, expect, it } from 'vitest';
import type { Change, Explanation } from '../../../src/faults/explanation.ts';
import { digitsTurned, oddReadings } from '../../../src/faults/single-readings.ts';

/** u of what is expected, with the 0.004 mm by which neighbours differ: 0.005 mm. */
const U_MM = 0.003;
const change = (fromTipMm: number, across: number, expectedMm: number, thicknessMm: number): Change => ({
  reading: { blade: 'A', fromTipMm, across, thicknessMm, repeats: 1, noiseFactor: 1 },
  expectedMm,
  changeMm: thicknessMm - expectedMm,
  uMm: U_MM,
});
/** A reading beside what was expected of it, among three neighbours that changed by an amount. */
const read = (thicknessMm: number, aroundMm = 0, expectedMm = 0.43) => {
  const around = [8, 9, 11].map((mm) => change(mm, 0.4, 0.4, 0.4 + aroundMm));
  const changes = [change(10, 0, expectedMm, thicknessMm), ...around];
  return oddReadings({ changes } as unknown as Explanation, 0.01);
};

/** A reading by itself, so unsure that its standard deviation is hypot(0.0075, 0.004) = 0.0085 mm: 4.5 are 0.03825, 7.5 are 0.06375. */
const unsure = (offMm: number) => {
  const changes = [{ ...change(10, 0, 0.43, 0.43 + offMm), uMm: 0.0075 }];
  return oddReadings({ changes } as unknown as Explanation, 0.01)[0]?.grade;
};

describe('a reading too high for cane that only leaves', () => {
  it('is odd from 4.5 standard deviations and 0.03 mm on', () => {
    expect(read(0.459)).toEqual([]);
    const [odd] = read(0.461);
    expect(odd).toMatchObject({ expectedMm: 0.43, grade: 'asked' });
    // 0.031 mm in standard deviations of hypot(0.003, 0.004).
    expect(odd!.sds).toBeCloseTo(6.2, 9);
    expect(unsure(0.038)).toBeUndefined();
    expect(unsure(0.0385)).toBe('asked');
  });

  it('is named where nothing else can be: 7.5 standard deviations and 0.05 mm', () => {
    expect(read(0.479)[0]!.grade).toBe('asked');
    expect(read(0.481)[0]!.grade).toBe('named');
    expect(unsure(0.0637)).toBe('asked');
    expect(unsure(0.0638)).toBe('named');
  });

  it('is a tenth of the dial where 0.1 mm less lands within 2.5 standard deviations of what was expected', () => {
    for (const off of [-0.012, 0, 0.012]) {
      const [odd] = read(0.53 + off);
      expect(odd!.grade).toBe('named');
      expect(odd!.meantMm).toBeCloseTo(0.43 + off, 9);
    }
    expect(read(0.53 + 0.013)[0]!.meantMm).toBeUndefined();
    expect(read(0.53 - 0.013)[0]!.meantMm).toBeUndefined();
  });

  it('may have lost as much as its neighbours before the slip', () => {
    // Neighbours lost 0.02: from 0.41 - 0.0125 to 0.43 + 0.0125 may have been meant.
    expect(read(0.51 - 0.012, -0.02)[0]!.meantMm).toBeCloseTo(0.398, 9);
    expect(read(0.51 - 0.013, -0.02)[0]!.meantMm).toBeUndefined();
  });

  it('is digits turned where that lands there', () => {
    const turned = oddReadings({ changes: [change(10, 0, 0.35, 0.53)] } as unknown as Explanation, 0.01);
    expect(turned[0]).toMatchObject({ meantMm: 0.35, grade: 'named' });
  });

  it('is explained by neighbours that rose as well', () => {
    expect(read(0.47, 0.04)).toEqual([]);
    expect(read(0.471 + 0.03, 0.04)[0]!.expectedMm).toBeCloseTo(0.47, 9);
  });
});

describe('a reading that is low and alone', () => {
  it('is odd by as much, is asked about, and was a tenth where 0.1 mm more lands within one standard deviation', () => {
    expect(read(0.401)).toEqual([]);
    expect(read(0.399)[0]).toMatchObject({ grade: 'asked' });
    expect(read(0.399)[0]!.meantMm).toBeUndefined();
    expect(unsure(-0.038)).toBeUndefined();
    expect(unsure(-0.0385)).toBe('asked');
    for (const off of [-0.0049, 0.0049])
      expect(read(0.42 + off, 0, 0.52)[0]!.meantMm).toBeCloseTo(0.52 + off, 9);
    for (const off of [-0.0051, 0.0051]) expect(read(0.42 + off, 0, 0.52)[0]!.meantMm).toBeUndefined();
  });

  it('is told from neighbours that lost as much on the average', () => {
    expect(read(0.38, -0.03)).toEqual([]);
    expect(read(0.36, -0.03)[0]!.expectedMm).toBeCloseTo(0.4, 9);
  });

  it('is a scrape where a neighbour on its line lost three quarters as much', () => {
    const beside = (mm: number) => {
      const changes = [change(10, 0, 0.43, 0.33), change(13, 0, 0.5, 0.5 - mm), change(7, 0.4, 0.4, 0.4)];
      return oddReadings({ changes } as unknown as Explanation, 0.01);
    };
    expect(beside(0.076)).toEqual([]);
    expect(beside(0.074).map(({ reading }) => reading.fromTipMm)).toEqual([10]);
  });

  it('is digits turned, within one and a half standard deviations of what may be there', () => {
    const turned = (expectedMm: number) =>
      oddReadings({ changes: [change(10, 0, expectedMm, 0.35)] } as unknown as Explanation, 0.01)[0]!;
    expect(turned(0.53 - 0.0074)).toMatchObject({ meantMm: 0.53, grade: 'named' });
    expect(turned(0.53 + 0.0074)).toMatchObject({ meantMm: 0.53, grade: 'named' });
    expect(turned(0.53 - 0.0076).meantMm).toBeUndefined();
    expect(turned(0.53 + 0.0076).meantMm).toBeUndefined();
  });
});

describe('neighbours of a reading', () => {
  const among = (...around: readonly Change[]) =>
    oddReadings({ changes: [change(10, 0, 0.43, 0.38), ...around] } as unknown as Explanation, 0.01)[0]
      ?.expectedMm;
  const lost = (fromTipMm: number, across: number, mm: number, blade: 'A' | 'B' = 'A'): Change => {
    const one = change(fromTipMm, across, 0.4, 0.4 - mm);
    return { ...one, reading: { ...one.reading, blade } };
  };

  it('lie within 2.6 mm along and 0.45 across of it, on its own blade', () => {
    expect(among(lost(12.6, 0.45, 0.01))).toBeCloseTo(0.42, 12);
    for (const far of [lost(12.7, 0.4, 0.01), lost(10, 0.46, 0.01), lost(10, 0.4, 0.01, 'B')])
      expect(among(far)).toBeCloseTo(0.43, 12);
  });

  it('count by the one in the middle, or the mean of two', () => {
    expect(among(lost(9, 0.4, 0.004), lost(11, 0.4, 0.012))).toBeCloseTo(0.422, 12);
    expect(among(lost(9, 0.4, 0.002), lost(11, 0.4, 0.02), lost(8, 0.4, 0.005))).toBeCloseTo(0.425, 12);
    expect(among(...[0.012, 0.002, 0.02, 0.004].map((mm, i) => lost(8 + i, 0.4, mm)))).toBeCloseTo(0.422, 12);
  });
});

it('digits are turned as the gauge shows them', () => {
  expect(digitsTurned(0.45, 0.01)).toEqual([0.54]);
  expect(digitsTurned(0.44, 0.01)).toEqual([]);
  expect(digitsTurned(0.453, 0.001)).toEqual([0.543, 0.435]);
  // In thousandths a nought that is not written on a dial of hundredths is one that may be turned.
  expect(digitsTurned(0.45, 0.001)).toEqual([0.54, 0.405]);
  expect(digitsTurned(0.45, 0.1)).toEqual([0.54]);
});
