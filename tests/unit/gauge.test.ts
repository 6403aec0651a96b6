import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Reading } from '../../shared/reading.ts';
import { believableChangeMm, scatterAtMm } from '../../src/gauge/believable-change.ts';
import { readingNoise } from '../../src/gauge/reading-noise.ts';
import { calibrationLine, checkHistory, knownMeans, lineAt } from '../../src/gauge/calibration.ts';
import { correctReadings, sharedGaugeError } from '../../src/gauge/correct-readings.ts';
import { repeatability } from '../../src/gauge/repeatability.ts';
import { fitStraightLine } from '../../src/gauge/straight-line.ts';
import { seededRandom } from '../seeded-random.ts';

function reading(thicknessMm: number | undefined, seconds?: number): Reading {
  return {
    blade: 'A',
    fromTipMm: 1,
    across: 0,
    ...(thicknessMm !== undefined && { thicknessMm }),
    repeat: 0,
    flag: 'ok',
    role: 'station',
    ...(seconds !== undefined && { seconds }),
  };
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

describe('correction', () => {
  const three = [reading(0.5), reading(0.5), reading(0.5)];

  it('lets the zero drift evenly in the order of reading', () => {
    const corrected = correctReadings(
      { readings: three, zeroBeforeMm: 0, zeroAfterMm: 0.01 },
      { stepMm: 0.01 },
    );
    expect(corrected.map(({ thicknessMm }) => thicknessMm)).toEqual([0.5, 0.495, 0.49]);
  });

  it('follows the clock where every reading has one', () => {
    const timed = [reading(0.5, 0), reading(0.5, 90), reading(0.5, 100)];
    const corrected = correctReadings(
      { readings: timed, zeroBeforeMm: 0, zeroAfterMm: 0.01 },
      { stepMm: 0.01 },
    );
    expect(corrected[1]!.thicknessMm).toBeCloseTo(0.491, 12);
  });

  it('takes off the tongue and goes through the calibration line', () => {
    const line = fitStraightLine([0, 1], [0.01, 1.03], [0.001, 0.001]);
    const [only] = correctReadings({ readings: [reading(1.132)] }, { stepMm: 0.01, tongueMm: 0.6, line });
    expect(only!.thicknessMm).toBeCloseTo((1.132 - 0.6 - 0.01) / 1.02, 12);
  });

  it('leaves out places without a number and never touches the readings', () => {
    const readings = [reading(0.4), reading(undefined), reading(0.2)];
    const before = structuredClone(readings);
    const corrected = correctReadings({ readings, zeroBeforeMm: 0.02 }, { stepMm: 0.01 });
    expect(corrected.map((one) => one.reading)).toEqual([readings[0], readings[2]]);
    expect(readings).toEqual(before);
  });

  it('moves all thicknesses by as much as the zero moves', () => {
    const zero = fc.double({ min: -0.1, max: 0.1, noNaN: true });
    fc.assert(
      fc.property(
        zero,
        fc.array(fc.double({ min: 0.05, max: 0.7, noNaN: true }), { minLength: 1 }),
        (by, mm) => {
          const readings = mm.map((value) => reading(value));
          const plain = correctReadings({ readings }, { stepMm: 0.01 });
          const moved = correctReadings({ readings, zeroBeforeMm: by, zeroAfterMm: by }, { stepMm: 0.01 });
          moved.forEach(({ thicknessMm }, i) =>
            expect(thicknessMm).toBeCloseTo(plain[i]!.thicknessMm - by, 12),
          );
        },
      ),
    );
  });

  it('shares less error where the zero and the span were checked', () => {
    const line = fitStraightLine([0.1, 0.5], [0.1, 0.5], [0.001, 0.001]);
    const unchecked = sharedGaugeError({}, { stepMm: 0.01 });
    const zeroed = sharedGaugeError({ zeroBeforeMm: 0, zeroAfterMm: 0 }, { stepMm: 0.01 });
    const checked = sharedGaugeError({ zeroBeforeMm: 0, zeroAfterMm: 0 }, { stepMm: 0.001, line });
    // A zero that was set has no rounding; one that was read and taken off has that of its step (GUM F.2.2.1).
    const read = sharedGaugeError({ zeroBeforeMm: 0.02, zeroAfterMm: 0.02 }, { stepMm: 0.01 });
    expect(read.zeroVarianceMm2 - zeroed.zeroVarianceMm2).toBeCloseTo(0.01 ** 2 / 12, 12);
    // A drift is rectangular: its width over the root of 12.
    const drifted = sharedGaugeError({ zeroBeforeMm: 0, zeroAfterMm: 0.02 }, { stepMm: 0.01 });
    expect(drifted.zeroVarianceMm2 - read.zeroVarianceMm2).toBeCloseTo(0.02 ** 2 / 12, 12);
    expect(zeroed.zeroVarianceMm2).toBeLessThan(unchecked.zeroVarianceMm2);
    expect(checked.zeroSpanCovarianceMm).toBeLessThan(0);
    // At the middle of the known thicknesses the two errors all but cancel.
    const at = (mm: number) =>
      checked.zeroVarianceMm2 + 2 * mm * checked.zeroSpanCovarianceMm + mm ** 2 * checked.spanVariance;
    expect(at(0.3)).toBeLessThan(at(0.05));
  });
});

describe('repeatability', () => {
  it('finds the scatter under a coarse step, where the plain standard deviation does not', () => {
    for (const seating of [0.003, 0.005, 0.012]) {
      const random = seededRandom(Math.round(1e5 * seating));
      const stations = Array.from({ length: 50 }, () => {
        const thickness = 0.1 + 0.4 * random();
        return [1, 2, 3, 4, 5, 6].map(() => Math.round(100 * (thickness + seating * normal(random))) / 100);
      });
      const { seatingMm, dof } = repeatability(stations, 0.01);
      expect(dof).toBe(250);
      // Twice its own scatter, about 1 / sqrt(2 dof) and more where the step hides it.
      expect(Math.abs(seatingMm / seating - 1)).toBeLessThan(0.16);
    }
  });

  it('says that repeats which all agree show no more than the step', () => {
    const { seatingMm, sdMm } = repeatability(
      [
        [0.4, 0.4, 0.4],
        [0.12, 0.12],
      ],
      0.01,
    );
    expect(seatingMm).toBe(0);
    expect(sdMm).toBeCloseTo(0.01 / Math.sqrt(12), 12);
  });

  it('passes over stations read once and asks for a repeat', () => {
    const stations = [[0.47, 0.48, 0.46, 0.47]];
    expect(repeatability([...stations, [0.3]], 0.01)).toEqual(repeatability(stations, 0.01));
    expect(() => repeatability([[0.3], [0.4]], 0.01)).toThrow('read twice');
  });

  it('scales with the step', () => {
    const steps = [
      [47, 48, 46],
      [12, 12, 13],
    ];
    const at = (step: number) =>
      repeatability(
        steps.map((station) => station.map((k) => k * step)),
        step,
      ).seatingMm / step;
    expect(at(0.001)).toBeCloseTo(at(0.01), 9);
  });
});

describe('believable change', () => {
  it('is larger on a slope than on the flat, by the placement', () => {
    const scatter = readingNoise(0.005, 0.15);
    expect(scatterAtMm(scatter, { along: 0, across: 0 })).toBe(0.005);
    // Common practice, no source: 0.013 to 0.020 where the slope is 0.08 to 0.13.
    expect(scatterAtMm(scatter, { along: 0.08, across: 0 })).toBeCloseTo(0.013, 3);
    expect(scatterAtMm(scatter, { along: 0.13, across: 0 })).toBeCloseTo(0.02, 3);
  });

  it('falls with the root of the number of readings', () => {
    expect(believableChangeMm(0.005, 4)).toBeCloseTo(believableChangeMm(0.005) / 2, 12);
    expect(() => believableChangeMm(0.005, 0)).toThrow('readings');
  });
});

describe('history of checks', () => {
  const known = (factor: number) =>
    [0.1, 0.3, 0.5].map((nominalMm) => ({
      nominalMm,
      nominalUMm: 0.0005,
      shownMm: [factor * nominalMm, factor * nominalMm],
    }));
  const checks = [
    { takenAt: '2026-03-01T10:00:00+01:00', known: known(1.05) },
    { takenAt: '2026-01-01T10:00:00+01:00', zeroMm: 0, known: known(1) },
    { takenAt: '2026-02-01T10:00:00+01:00', zeroMm: 0.002, known: [] },
  ];
  const history = checkHistory(checks, 0.001, 0.002);

  it('goes by time and says when the span moved', () => {
    expect(history.map(({ takenAt }) => takenAt.slice(0, 7))).toEqual(['2026-01', '2026-02', '2026-03']);
    expect(history.map(({ spanMoved }) => spanMoved)).toEqual([false, false, true]);
    expect(history[1]).toEqual({ takenAt: checks[2]!.takenAt, zeroMm: 0.002, spanMoved: false });
  });

  it('gives the line that held at a moment', () => {
    expect(lineAt(history, '2026-02-15T10:00:00+01:00')?.slope).toBeCloseTo(1, 12);
    expect(lineAt(history, '2026-03-15T10:00:00+01:00')?.slope).toBeCloseTo(1.05, 12);
    expect(lineAt(history, '2025-01-01T10:00:00+01:00')?.slope).toBeCloseTo(1, 12);
    expect(lineAt([], '2026-01-01T10:00:00+01:00')).toBeUndefined();
  });

  it('counts what was shown from the zero of the check', () => {
    const shifted = known(1).map(({ shownMm, ...rest }) => ({
      ...rest,
      shownMm: shownMm.map((s) => s + 0.02),
    }));
    const line = calibrationLine({ takenAt: checks[0]!.takenAt, zeroMm: 0.02, known: shifted }, 0.001, 0.002);
    expect(line?.intercept).toBeCloseTo(0, 12);
    const one = { takenAt: checks[0]!.takenAt, known: known(1).slice(0, 1) };
    expect(calibrationLine(one, 0.001, 0.002)).toBeUndefined();
  });
});

describe('known thicknesses of a check', () => {
  it('are means counted from its zero, with the doubt of step, scatter and feeler', () => {
    const check = {
      takenAt: '2026-03-01T10:00:00Z',
      zeroMm: 0.01,
      known: [{ nominalMm: 0.1, nominalUMm: 0.0025, shownMm: [0.11, 0.11, 0.12, 0.12] }],
    };
    const [mean] = knownMeans(check, 0.01, 0.006);
    expect(mean!.nominalMm).toBe(0.1);
    expect(mean!.shownMm).toBeCloseTo(0.105, 12);
    // By hand: 0.0025, 0.01 / sqrt(12) = 0.0028868 and 0.006 / 2 = 0.003, by their squares.
    expect(mean!.uMm).toBeCloseTo(0.0048563, 6);
  });
});

describe('errors', () => {
  it('name what is wrong', () => {
    expect(() => fitStraightLine([1, 2], [1, 2])).toThrow('x: must be at least 3 points, got 2');
    expect(() => fitStraightLine([1, 2, 3], [1, 2])).toThrow('y: must be 3 values');
    expect(() => fitStraightLine([1, 1, 1], [1, 2, 3])).toThrow('x: must spread');
    expect(() => fitStraightLine([1, 2], [1, 2], [0.1, 0])).toThrow('uY[1]: must be positive');
  });
});
