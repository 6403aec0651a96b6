import { describe, expect, it } from 'vitest';
import { caneOf } from '../../../src/faults/cane.ts';
import { caneState } from '../../../src/faults/cane-state.ts';
import type { JudgedPass } from '../../../src/faults/explanation.ts';
import { asOdd, oddFirstReadings, setApart } from '../../../src/faults/first-pass.ts';
import { judgedPasses } from '../../../src/faults/judged-passes.ts';
import { withPass, type CaneReading } from '../../../src/faults/known-cane.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';

/** A blade by a formula, mm from a cork end 70 mm away: a ridge at 5 mm. */
const station = (fromTipMm: number, mmAt: (y: number) => number, across = 0): CaneReading => ({
  ...{ blade: 'A', zMm: 70 - fromTipMm, across, thicknessMm: mmAt(fromTipMm), seatingMm: 0.004 },
});
const ridged = (y: number) => 0.1 + 0.4 / (1 + Math.exp(-(y - 5) / 0.6));
const rows = (from: number, to: number, mmAt = ridged) =>
  Array.from({ length: 2 * (to - from) + 1 }, (_, k) => from + k / 2).flatMap((y) =>
    [-0.4, 0, 0.4].map((across) => station(y, mmAt, across)),
  );

describe('what is known of the cane after a pass', () => {
  const first = withPass(undefined, rows(2, 16), 0);

  it('reaches 2.4 mm beyond what was read, its ridge where it was seen', () => {
    expect([first.fromMm, first.toMm]).toEqual([70 - 16 - 2.4, 70 - 2 + 2.4]);
    expect(first.ridgeSeen).toBe(true);
    expect(first.blades.A!.hull).toEqual([54, 68]);
    expect(first.blades.B).toBeUndefined();
  });

  it('goes on in the same spaces as long as a pass stays 1 mm within them', () => {
    const with_ = (from: number, to: number) => withPass(first, rows(from, to), 0);
    expect(with_(1, 17).base).toBe(first.base);
    expect(with_(0.5, 16).base).not.toBe(first.base);
    expect(with_(2, 17.5).base).not.toBe(first.base);
    expect(with_(1, 16).blades.A!.hull).toEqual([54, 69]);
    expect(with_(3, 12).blades.A!.hull).toEqual([54, 68]);
  });

  it('begins anew where a ridge is seen for the first time', () => {
    // Three rows are too few to tell where a blade is steepest.
    const few = [2, 9, 16].map((y) => station(y, ridged));
    const flat = withPass(undefined, few, 0);
    expect(flat.ridgeSeen).toBe(false);
    // Counted 4 mm behind the highest place until it is seen.
    expect(flat.base.warp.ridgeMm).toBe(70 - 2 - 4);
    expect(withPass(flat, few, 0).base).toBe(flat.base);
    const seen = withPass(flat, rows(2, 16), 0);
    expect(seen.ridgeSeen).toBe(true);
    expect(Math.abs(seen.base.warp.ridgeMm - 65)).toBeLessThanOrEqual(0.25);
    expect(seen.base).not.toBe(flat.base);
    expect(withPass(seen, few, 0).base).toBe(seen.base);
  });

  it('has the mean of the blades’ ridges', () => {
    const later = (y: number) => ridged(y - 1);
    const facing = rows(2, 16, later).map((one) => ({ ...one, blade: 'B' as const }));
    const both = withPass(undefined, [...rows(2, 16), ...facing], 0);
    const alone = withPass(
      undefined,
      rows(2, 16, (y) => ridged(y - 0.5)),
      0,
    );
    // The same spaces as for a ridge half way between: 5 and 6 mm, and 5.5.
    expect(both.base).toEqual(alone.base);
    expect(both.base).not.toEqual(first.base);
  });

  it('leaves what was known before as it was', () => {
    const before = caneState(first)('A', 0, 60)!.mm.slice();
    withPass(
      first,
      rows(2, 16, (y) => ridged(y) - 0.05),
      0,
    );
    expect(caneState(first)('A', 0, 60)!.mm).toEqual(before);
  });

  it('is as thick as it read, every 0.2 mm of a line, and the surer the more often', () => {
    const { fromMm, mm, uMm, hull } = caneState(first)('A', 0, 60)!;
    expect([fromMm, hull]).toEqual([54 - 2.4, [54, 68]]);
    const at = (of: Float64Array, fromTipMm: number) => of[Math.round((70 - fromTipMm - fromMm) / 0.2)]!;
    for (const y of [3, 8, 12]) expect(Math.abs(at(mm, y) - ridged(y))).toBeLessThan(3 * at(uMm, y) + 0.004);
    // Where nothing was read it is drawn on.
    for (const end of [mm[0]!, mm.at(-1)!]) expect(end).toBeGreaterThan(0.05);
    const again = caneState(withPass(first, rows(2, 16), 0))('A', 0, 60)!;
    for (const y of [3, 8, 12]) expect(at(again.uMm, y)).toBeLessThan(at(uMm, y));
    // Standard deviations lie on straight lines between every fourth place.
    for (let k = 4; k + 4 < uMm.length; k += 4)
      for (const j of [1, 2, 3])
        expect(uMm[k + j]).toBeCloseTo(uMm[k]! + ((uMm[k + 4]! - uMm[k]!) * j) / 4, 12);
    expect(caneState(first)('B', 0, 60)).toBeUndefined();
  });

  it('is less sure on a ridge by as much as the hand misses its place', () => {
    const sure = (placementMm: number, y: number) => {
      const { fromMm, uMm } = caneState(withPass(undefined, rows(2, 16), placementMm))('A', 0, 60)!;
      return uMm[Math.round((70 - y - fromMm) / 0.2)]!;
    };
    expect(sure(0.2, 5) / sure(0, 5)).toBeGreaterThan(2);
    expect(sure(0.2, 13) / sure(0, 13)).toBeLessThan(1.5);
  });
});

describe('untouched cane', () => {
  const control = (zMm: number, across: number, thicknessMm: number, seatingMm = 0.004): CaneReading => ({
    ...{ blade: 'A', zMm, across, thicknessMm, seatingMm },
  });
  const known = withPass(undefined, rows(2, 16), 0);
  const pass = (soakMin: number | undefined, ...controls: CaneReading[]) => ({
    ...{ stations: [], controls },
    ...(soakMin !== undefined && { soakMin }),
  });

  it('is as thick as its readings within 1 mm and a quarter across say', () => {
    const cane = caneOf([pass(undefined, control(50, 0, 0.6), control(51, 0.25, 0.61, 0.003))], known);
    const at = (zMm: number, across = 0) => cane.controls('A', across, zMm);
    expect(at(50.5)!.mm[0]).toBeCloseTo(0.605, 12);
    expect(at(50.5)!.uMm[1]).toBeCloseTo(0.0025, 12);
    expect(at(50)!.mm[1]).toBeCloseTo(0.605, 12);
    expect(at(49.9)!.mm[0]).toBe(0.6);
    expect(at(51.1, 0.1)!.mm[0]).toBe(0.61);
    expect(at(50.5, -0.01)!.mm[0]).toBe(0.6);
    expect(at(48.9)).toBeUndefined();
    expect(at(50.5, 0.6)).toBeUndefined();
    expect(cane.controls('B', 0, 50)).toBeUndefined();
  });

  it('was soaked as long as on the average, where that is known', () => {
    expect(caneOf([pass(5), pass(undefined), pass(8)], known).soakMin).toBe(6.5);
    expect(caneOf([pass(undefined)], known)).not.toHaveProperty('soakMin');
  });
});

it('a pass is judged with its own untouched cane, soak and accident', () => {
  const pass = (index: number) => ({ index, overallLengthMm: 70, readings: [] });
  const control = { blade: 'A', fromTipMm: 30, across: 0, thicknessMm: 0.6, time: 0.5 };
  const judged = judgedPasses(
    { passes: [pass(0), pass(2)], controls: [[control]], readTwice: [] } as never,
    [{ index: 2, soakMin: 5, scrape: { accident: 'it slipped' } }, { index: 0 }] as never,
  );
  expect(judged).toEqual([
    { ...pass(0), controls: [{ ...control, repeats: 1, noiseFactor: 1 }], readTwice: [], accident: false },
    { ...pass(2), controls: [], readTwice: [], soakMin: 5, accident: true },
  ]);
});

describe('a slip in a first pass', () => {
  const shape = (blade: 'A' | 'B', y: number, across: number) =>
    0.45 + 0.008 * y - 0.06 * across ** 2 + (blade === 'A' ? 0.005 : 0);
  const readings = Array.from({ length: 10 }, (_, k) => 3 + k).flatMap((fromTipMm) =>
    [-0.4, 0, 0.4].flatMap((across) =>
      (['A', 'B'] as const).map((blade): FitReading => ({
        ...{
          blade,
          fromTipMm,
          across,
          thicknessMm: shape(blade, fromTipMm, across),
          noiseFactor: 1,
          repeats: 1,
        },
      })),
    ),
  );
  const noise = { seatingMm: 0.005, placementMm: 0.1 };
  const oddOf = (of: readonly FitReading[], placementMm = 0.1) =>
    oddFirstReadings({ readings: of } as unknown as JudgedPass, { ...noise, placementMm }, 0.01);
  const wrong = (byMm: number, ...at: number[]) =>
    readings.map((one, i) => (at.includes(i) ? { ...one, thicknessMm: one.thicknessMm + byMm } : one));

  it('is told by thirty readings, not by fewer', () => {
    expect(oddOf(readings)).toEqual([]);
    const slipped = wrong(0.1, 14);
    expect(oddOf(slipped.slice(0, 30)).map(({ reading }) => reading)).toEqual([slipped[14]]);
    expect(oddOf(slipped.slice(0, 29))).toEqual([]);
  });

  it('has what was meant, a tenth either way', () => {
    for (const mm of [0.1, -0.1]) {
      const [odd, ...more] = oddOf(wrong(mm, 20));
      expect(more).toEqual([]);
      expect(odd!.meantMm).toBeCloseTo(readings[20]!.thicknessMm, 9);
      expect(odd!.expectedMm).toBeCloseTo(readings[20]!.thicknessMm, 2);
      expect(Math.sign(odd!.sds)).toBe(Math.sign(mm));
    }
    expect(oddOf(wrong(0.028, 20))).toEqual([]);
  });

  it('is one of four at most', () => {
    expect(oddOf(wrong(0.2, 8, 20, 32, 44, 56))).toHaveLength(4);
    expect(oddOf(wrong(0.2, 8, 32, 56))).toHaveLength(3);
  });

  it('weighs as its reading is sure: less by a noisy one, more by several', () => {
    const sdsOf = (more: Partial<FitReading>) =>
      oddOf(wrong(0.1, 20).map((one, i) => (i === 20 ? { ...one, ...more } : one)))[0]!.sds;
    expect(sdsOf({ repeats: 9 })).toBeGreaterThan(sdsOf({}));
    expect(sdsOf({ noiseFactor: 2 })).toBeLessThan(sdsOf({}));
    // As noisy as three times, and read nine times over, is as sure as once.
    expect(sdsOf({ noiseFactor: 3, repeats: 9 })).toBeCloseTo(sdsOf({}), 9);
  });

  it('is told from an unsure hand on a steep blade, which the readings themselves show', () => {
    const steep = readings.map((one, i) => ({
      ...one,
      thicknessMm: one.thicknessMm + 0.08 * one.fromTipMm + 0.03 * (((i * 7) % 5) / 2 - 1),
    }));
    expect(oddOf(steep, 0.15)).toEqual([]);
  });

  const first = (thicknessMm: number, offMm: number, sds: number) => ({
    ...{ reading: { ...readings[0]!, thicknessMm }, offMm, sds, uMm: Math.abs(offMm / sds) },
  });

  it.each([
    // A fifth of what was expected, from 0.025 to 0.06 mm, by 4.4 standard deviations.
    [0.1, 0.0251, 4.41, true],
    [0.1, 0.0251, 4.39, false],
    [0.1, 0.0249, 5.8, false],
    [0.2, 0.0401, 4.41, true],
    [0.2, -0.0401, -4.41, true],
    [0.2, 0.0399, 5.8, false],
    [0.5, 0.0601, 4.41, true],
    [0.5, 0.0599, 5.8, false],
    // Less than that, from 0.03 mm on, by 5.9.
    [0.5, 0.0301, 5.91, true],
    [0.5, -0.0301, -5.91, true],
    [0.5, 0.0301, 5.89, false],
    [0.5, 0.0299, 9, false],
  ])('of %d mm, off by %d mm and %d standard deviations: odd is %s', (expectedMm, offMm, sds, odd) => {
    const one = first(expectedMm + offMm, offMm, sds);
    let asked = 0;
    const found = setApart([one.reading, ...readings], 2, () => (asked++ === 0 ? [one] : []));
    expect(found.odd).toEqual(odd ? [one] : []);
    expect(found.left).toHaveLength(odd ? readings.length : readings.length + 1);
  });

  it('is named from 8.5 standard deviations on, where it is known what was meant within 2.5', () => {
    // 0.4 read for 0.3, off by 0.1 less so much.
    const of = (offMm: number, uMm: number) =>
      asOdd({ reading: { ...readings[0]!, thicknessMm: 0.4 }, offMm, uMm, sds: offMm / uMm }, 0.01);
    expect(of(0.1, 0.1 / 8.51)).toMatchObject({ grade: 'named' });
    expect(of(0.1, 0.1 / 8.49)).toMatchObject({ grade: 'asked' });
    expect(of(0.1, 0.01).meantMm).toBeCloseTo(0.3, 12);
    expect(of(-0.1, 0.01).meantMm).toBeCloseTo(0.5, 12);
    expect(of(0.1249, 0.01).meantMm).toBeCloseTo(0.3, 12);
    expect(of(0.1251, 0.01)).toMatchObject({ grade: 'asked' });
    expect(of(0.1251, 0.01).meantMm).toBeUndefined();
    // 0.45 for 0.54: nearer than a tenth more.
    const turned = { ...readings[0]!, thicknessMm: 0.45 };
    expect(asOdd({ reading: turned, offMm: -0.092, uMm: 0.01, sds: -9.2 }, 0.01).meantMm).toBeCloseTo(
      0.54,
      12,
    );
    expect(asOdd({ reading: turned, offMm: -0.099, uMm: 0.01, sds: -9.9 }, 0.01).meantMm).toBeCloseTo(
      0.55,
      12,
    );
  });
});
