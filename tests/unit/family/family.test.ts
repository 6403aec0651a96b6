import { describe, expect, it } from 'vitest';
import { belongingOf, normalOfF, strangeness, strayedOf } from '../../../src/family/belongs.ts';
import {
  afterReading,
  allRead,
  choosePlaces,
  surpriseOf,
  worthOf,
  type Knowing,
} from '../../../src/family/choose-places.ts';
import { expectedOf, pullOf } from '../../../src/family/expect.ts';
import { stationsIn, towards } from '../../../src/family/interpolation.ts';
import { learnFamily } from '../../../src/family/learn.ts';
import { leftOut } from '../../../src/family/odd-readings.ts';
import { taughtBy } from '../../../src/family/of-library.ts';
import { predictiveOf, priorOf } from '../../../src/family/predictive.ts';
import { toldBy, type ReadReed } from '../../../src/family/read-reed.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { seededRandom } from '../../seeded-random.ts';
import { drawsFrom } from '../../study/generated-cane.ts';
import { knownFamily } from './known-family.ts';

const HEART = [
  { fromTipMm: 7, across: 0 },
  { fromTipMm: 8, across: 0.4 },
  { fromTipMm: 9, across: -0.4 },
];
const FAMILY = knownFamily(HEART, { meanMm: 0.5, commonMm2: 4e-4, ownMm2: 1e-4 });

const reading = (blade: 'A' | 'B', place: (typeof HEART)[number], thicknessMm: number): FitReading => ({
  ...{ blade, ...place, thicknessMm, repeats: 1, noiseFactor: 1 },
});
const readBy = (readings: readonly FitReading[]): ReadReed => ({ readings, seatingMm: 0.005, zeroMm: 0 });

describe('what a family expects', () => {
  it('pulls by the inverse of the readings’ covariance, worked by hand for one reading of each blade', () => {
    // S = [C + D + s2, C; C, C + D + s2] = [5.25, 4; 4, 5.25] e-4; r = (0.02, -0.01); det = 11.5625e-8.
    const reed = readBy([reading('A', HEART[0]!, 0.52), reading('B', HEART[0]!, 0.49)]);
    const told = toldBy(reed, stations());
    const { byReading } = pullOf(told, expectedOf(told, FAMILY), FAMILY.meanMm, Float64Array.of(0.52, 0.49));
    expect(byReading[0]).toBeCloseTo((5.25 * 0.02 + 4 * 0.01) / 11.5625e-4, 8);
    expect(byReading[1]).toBeCloseTo(-(5.25 * 0.01 + 4 * 0.02) / 11.5625e-4, 8);
    const distance = (5.25 * 0.0004 + 2 * 4 * 0.0002 + 5.25 * 0.0001) / 11.5625e-4;
    expect(strayedOf(reed, FAMILY, stations())).toBeCloseTo(distance / 2, 8);
  });

  it('holds each reading against the others as if it had not been read', () => {
    const values = [0.52, 0.505, 0.51];
    const all = HEART.map((place, k) => reading('A', place, values[k]!));
    const one = leftOut(readBy(all), FAMILY).find(({ at }) => at === 1)!;
    // By the two others: S = [5.25, 4; 4, 5.25] e-4, cross covariance (4, 4) e-4; r = (0.02, 0.01).
    const expected = 0.5 + (4 * (0.02 + 0.01)) / 9.25;
    expect(one.offMm).toBeCloseTo(0.505 - expected, 8);
    expect(one.uMm ** 2).toBeCloseTo(5.25e-4 - (32 / 9.25) * 1e-4, 10);
  });
});

/** Readings of three places of A and of B by FAMILY, seating of 0.005 mm; the mean of A's three is asked for. */
function knowing(): Knowing {
  const [alike, alone] = [4e-4, 1e-4];
  const covariance = Float64Array.from({ length: 36 }, (_, k) => alike + (k % 7 === 0 ? alone : 0));
  const asked = Float64Array.from({ length: 6 }, (_, k) => alike + (k < 3 ? alone / 3 : 0));
  const all = (value: number) => new Float64Array(6).fill(value);
  return {
    meanMm: all(0.5),
    covariance,
    noiseMm2: all(0.25e-4),
    asked,
    askedMm2: Float64Array.of(alike + alone / 3),
  };
}

describe('choosing places', () => {
  const ONE = Float64Array.of(1e-4);

  it('tells what a reading takes off the variance that is asked, worked by hand', () => {
    const before = knowing();
    const after = afterReading(before, { place: 0, thicknessMm: 0.52, share: 1 });
    // (C + D / 3)2 / (C + D + s2) for a place that is asked of, C2 / (C + D + s2) on the other blade.
    const drop = (4e-4 + 1e-4 / 3) ** 2 / 5.25e-4;
    expect(before.askedMm2[0]! - after.askedMm2[0]!).toBeCloseTo(drop, 12);
    expect(worthOf(before, ONE)[0]).toBeCloseTo(drop / 1e-4, 8);
    expect(worthOf(before, ONE)[3]).toBeCloseTo(16e-8 / 5.25e-4 / 1e-4, 8);
    // A second place of A is then expected at 0.5 + 0.02 C / (C + D + s2), one of the mean of four readings at A's own.
    expect(after.meanMm[1]).toBeCloseTo(0.5 + (0.02 * 4) / 5.25, 10);
    const mean = afterReading(before, { place: 0, thicknessMm: 0.52, share: 1 / 4 });
    expect(mean.meanMm[1]).toBeCloseTo(0.5 + (0.02 * 4) / 5.0625, 10);
  });

  it('tells how far a reading lies from what was expected', () => {
    const { expectedMm, uMm, sds } = surpriseOf(knowing(), { place: 2, thicknessMm: 0.46, share: 1 });
    expect([expectedMm, uMm]).toEqual([0.5, Math.sqrt(5.25e-4)]);
    expect(sds).toBeCloseTo(-0.04 / Math.sqrt(5.25e-4), 10);
  });

  it('asks for no more than is enough, for so many at least, and never for one that is closed', () => {
    const before = knowing();
    // One reading of A leaves 4.33e-4 - 3.58e-4, three leave under 0.1e-4 (C and D are told by their mean alone).
    expect(choosePlaces(before, Float64Array.of(0.8e-4))).toHaveLength(1);
    expect(choosePlaces(before, Float64Array.of(0.7e-4))).toHaveLength(2);
    expect(choosePlaces(before, Float64Array.of(0.8e-4), { least: 4 })).toHaveLength(4);
    expect(choosePlaces(before, ONE, { isOpen: (place) => place > 2 }).every((place) => place > 2)).toBe(
      true,
    );
    expect(allRead(before).askedMm2[0]).toBeLessThan(0.1e-4);
  });
});

describe('whether a reed belongs', () => {
  it('takes F for a normal as its tables do', () => {
    // Upper 5 % of F(10, 20) is 2.348, upper 1 % of F(30, 30) is 2.386: tables of F, from memory.
    expect(normalOfF(2.348, 10, 20)).toBeCloseTo(1.645, 1);
    expect(normalOfF(2.386, 30, 30)).toBeCloseTo(2.326, 2);
  });

  it('calls a reed outside that lies far from all others, and none that lies as they do', () => {
    const near = HEART.map((place) => reading('A', place, 0.51));
    const far = HEART.map((place) => reading('A', place, 0.62));
    expect(belongingOf(readBy(near), FAMILY).isOutside).toBe(false);
    expect(belongingOf(readBy(far), FAMILY).isOutside).toBe(true);
  });

  it('counts what lies towards other makers’ reeds, as chi-square does where all of it does', () => {
    const one = Float64Array.of(1, 0, 0, 1);
    // The upper 5 % of chi-square: 5.991 with two degrees of freedom, 3.841 with one (tables, from memory).
    const r = Math.sqrt(5.991 / 2);
    expect(strangeness(Float64Array.of(r, -r), one, Float64Array.of(9, 0, 0, 9), 1e9)).toBeCloseTo(1.645, 1);
    // Others stray at the first of two places alone: the second tells nothing.
    const first = Float64Array.of(9, 0, 0, 0);
    expect(strangeness(Float64Array.of(1.96, 50), one, first, 1e9)).toBeCloseTo(1.645, 1);
  });

  it('calls one in twelve outside of those that are drawn from the very covariance that is expected', () => {
    const known = { ...FAMILY, dof: 1e9 };
    const at = stations();
    const outside = drawn(4000, 19).filter((reed) => belongingOf(reed, known, at).isOutside).length;
    // 323 of 4,000 by the normal's tail beyond 1.4, give or take three times 17.
    expect(outside).toBeGreaterThan(271);
    expect(outside).toBeLessThan(375);
  });
});

/** Reeds drawn from FAMILY itself: what is learned can be held against it. */
function drawn(
  count: number,
  seed: number,
  isRead: (reed: number, station: number) => boolean = () => true,
  times = 1,
): ReadReed[] {
  const { normal } = drawsFrom(seededRandom(seed));
  return Array.from({ length: count }, (_, reed) => {
    const common = normal(0.02);
    return readBy(
      (['A', 'B'] as const).flatMap((blade) =>
        Array.from({ length: times }, () => HEART)
          .flat()
          .flatMap((place, at) => {
            const k = at % HEART.length;
            const mm = 0.5 + common + normal(0.01) + normal(0.005);
            return isRead(reed, k) ? [reading(blade, place, mm)] : [];
          }),
      ),
    );
  });
}

describe('learning', () => {
  it('weighs a mean by precision, as for one normal unknown with known variances', () => {
    const one = stationsIn(FAMILY.frame, HEART.slice(0, 1));
    const usual = one.usualCovariance[0]!;
    // Three readings of variance 1e-4 whose mean is 0.52, from 0.5 on: pull (0.52 - 0.5) 3 / 1e-4.
    const { meanMm, covariance } = towards(
      one,
      Float64Array.of(0.5),
      Float64Array.of(600),
      Float64Array.of(3e4),
    );
    expect(covariance[0]).toBeCloseTo(1 / (1 / usual + 3e4), 12);
    expect(meanMm[0]).toBeCloseTo((0.3 / usual + 0.52 * 3e4) / (1 / usual + 3e4), 10);
  });

  it('finds what both blades do alike and what each does, from 200 reeds that were drawn so', () => {
    const { common, own, meanMm } = learnFamily(drawn(200, 11));
    // Standard deviations of 0.02 and 0.01 mm: 200 draws tell the first to 5 %, twice as many of the second to 4 %; placement,
    // which these draws have none of, takes up to a quarter of the second's variance where a surface through three places leans.
    for (const k of [0, 4, 8]) {
      expect(Math.sqrt(common[k]!)).toBeGreaterThan(0.0175);
      expect(Math.sqrt(common[k]!)).toBeLessThan(0.0225);
      expect(Math.sqrt(own[k]!)).toBeGreaterThan(0.0078);
      expect(Math.sqrt(own[k]!)).toBeLessThan(0.0115);
      expect(meanMm[k / 4]).toBeCloseTo(0.5, 2);
    }
  });

  it('counts a partial reed by what was read of it', () => {
    const half = learnFamily(drawn(20, 12, (reed, station) => station < 2 || reed < 10));
    const whole = learnFamily(drawn(20, 12));
    const doubt = (family: typeof half, k: number) => family.meanCovariance[k * 4]!;
    expect(doubt(half, 2)).toBeGreaterThan(1.03 * doubt(whole, 2));
    expect(doubt(half, 0) / doubt(whole, 0)).toBeLessThan(doubt(half, 2) / doubt(whole, 2));
  });

  it('goes on from what was learned, and comes to the same', () => {
    const reeds = drawn(40, 13);
    const after = learnFamily(reeds, learnFamily(reeds.slice(0, 39)));
    const anew = learnFamily(reeds);
    after.meanMm.forEach((mm, k) => expect(mm).toBeCloseTo(anew.meanMm[k]!, 3));
    after.common.forEach((mm2, k) => expect(Math.abs(mm2 / anew.common[k]! - 1)).toBeLessThan(0.1));
  });

  it('widens what few reeds know: the t of 11 degrees of freedom reaches 2.201 where the normal reaches 1.96', () => {
    const family = learnFamily(drawn(8, 14));
    const { common, dof } = predictiveOf(family);
    // 4 + 8 - 1 of what both blades do alike, 8 + 16 of each.
    expect(dof).toBe(35);
    const wider = (2.201 / 1.96) ** 2;
    expect(common[0]).toBeCloseTo(wider * family.common[0]! + family.meanCovariance[0]!, 6);
  });

  it('parts the covariance into unknowns of both blades and what is left to each', () => {
    const predictive = predictiveOf(learnFamily(drawn(30, 15)));
    const { common, own } = priorOf(predictive);
    const r = common.length / 3;
    for (let i = 0; i < 3; i++) {
      let sum = own[i * 3 + i]!;
      for (let c = 0; c < r; c++) sum += common[i * r + c]! ** 2;
      expect(sum).toBeCloseTo(predictive.common[i * 4]! + predictive.own[i * 4]!, 10);
    }
  });

  it('teaches nothing from few reeds', () => {
    expect(taughtBy(drawn(7, 16, () => true, 4))).toBeUndefined();
  });

  it('notices within three reeds that they are of another kind, and not where they are of the same', () => {
    const before = drawn(12, 17, () => true, 4);
    const after = drawn(3, 18, () => true, 4);
    const thicker = after.map(thickened(0.1));
    expect(taughtBy([...before, ...after])!.isChanging).toBe(false);
    expect(taughtBy([...before, ...thicker])!.isChanging).toBe(true);
    expect(taughtBy([...before, ...thicker.slice(0, 2), after[2]!])!.isChanging).toBe(true);
    expect(taughtBy([...before, thicker[0]!, ...after.slice(1)])!.isChanging).toBe(false);
    // The newest by itself, where it is very unlike; and all until there are as many of the new kind as teach anything.
    expect(taughtBy([...before, thickened(0.2)(after[0]!)])!.isChanging).toBe(true);
    const six = drawn(6, 19, () => true, 4).map(thickened(0.1));
    expect(taughtBy([...before, ...six])!.isChanging).toBe(true);
  });
});

const thickened =
  (byMm: number) =>
  (reed: ReadReed): ReadReed => ({
    ...reed,
    readings: reed.readings.map((one) => ({ ...one, thicknessMm: one.thicknessMm + byMm })),
  });
const stations = () => stationsIn(FAMILY.frame, HEART);
