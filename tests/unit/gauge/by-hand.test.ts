import { describe, expect, it } from 'vitest';
import { checkHistory, type GaugeCheck } from '../../../src/gauge/calibration.ts';
import { sharedGaugeError, shownMm } from '../../../src/gauge/correct-readings.ts';
import { parabolaTop, readingVariance, usualSeatingMm } from '../../../src/gauge/reading-noise.ts';
import { resolutionU } from '../../../src/gauge/resolution.ts';
import { repeatability } from '../../../src/gauge/repeatability.ts';
import { partReversal } from '../../../src/gauge/reversal.ts';

describe('a reed turned on the tongue', () => {
  const same = (values: readonly number[]) =>
    partReversal(values.map((mm) => ({ usualMm: mm, turnedMm: mm })));

  it('tells a hand where its Student interval leaves out zero', () => {
    // 0.02, 0.03, 0.04: mean 0.03, standard error 0.01 / sqrt 3; t of 2 degrees of freedom is 4.3027, half 0.0248.
    const { hand, tilt } = same([0.02, 0.03, 0.04]);
    expect(hand.valueMm).toBeCloseTo(0.03, 12);
    expect(hand.uMm).toBeCloseTo(0.0057735, 7);
    expect(hand.told).toBe(true);
    expect(tilt).toEqual({ valueMm: 0, uMm: 0, told: false });
    // Twice the scatter: half 0.0497.
    expect(same([0.01, 0.03, 0.05]).hand.told).toBe(false);
    expect(same([-0.02, -0.03, -0.04]).hand.told).toBe(true);
  });

  it('gives the gauge what changes its sign', () => {
    const pairs = [0.02, 0.03, 0.04].map((mm) => ({ usualMm: mm, turnedMm: -mm }));
    const { hand, tilt } = partReversal(pairs);
    expect(hand.told).toBe(false);
    expect(tilt.valueMm).toBeCloseTo(0.03, 12);
    expect(() => partReversal(pairs.slice(1))).toThrow('at least 3, got 2');
  });
});

describe('errors that readings of a pass share', () => {
  const variance = (zeroBeforeMm: number, zeroAfterMm: number) =>
    sharedGaugeError({ zeroBeforeMm, zeroAfterMm }, { stepMm: 0.01 }).zeroVarianceMm2;

  it('have the step of the display where a zero was read, not where it was set by its mark', () => {
    // A rectangle of 0.01 mm: 0.01^2 / 12.
    expect(variance(0.02, 0.02) - variance(0, 0)).toBeCloseTo(1e-4 / 12, 12);
  });

  it('have the drift of the zero, a rectangle over it', () => {
    expect(variance(0.02, 0.05) - variance(0.02, 0.02)).toBeCloseTo(0.03 ** 2 / 12, 12);
  });

  it('have the usual zero where one end of the pass was noted, or none', () => {
    // Common practice, no source: 0.0005 mm and a tenth of the step.
    for (const zero of [{}, { zeroBeforeMm: 0 }, { zeroAfterMm: 0 }])
      expect(sharedGaugeError(zero, { stepMm: 0.01 }).zeroVarianceMm2).toBeCloseTo(0.0015 ** 2, 15);
    // One that was read has the rounding of the step besides.
    for (const zero of [{ zeroBeforeMm: 0.02 }, { zeroAfterMm: 0.02 }])
      expect(sharedGaugeError(zero, { stepMm: 0.01 }).zeroVarianceMm2).toBeCloseTo(
        0.0015 ** 2 + 1e-4 / 12,
        12,
      );
  });

  it('are shown again from a true thickness', () => {
    const gauge = { stepMm: 0.01 };
    expect(shownMm(0.4, {}, gauge)).toBe(0.4);
    expect(shownMm(0.4, { zeroBeforeMm: 0.02 }, { ...gauge, tongueMm: 1 })).toBeCloseTo(1.42, 12);
  });
});

describe('a gauge with a line', () => {
  // Shows 0.01 mm more and 2 % too much.
  const line = {
    ...{ intercept: 0.01, slope: 1.02, uIntercept: 0.002, uSlope: 0.005, covariance: -4e-6 },
    ...{ middle: { x: 0, value: 0.01, u: 0.002 }, weightedRss: 0, dof: 1 },
  };
  const gauge = { stepMm: 0.01, line };

  it('shows a true thickness by that line, on its tongue, from its zero', () => {
    expect(shownMm(0.5, { zeroBeforeMm: 0.03, zeroAfterMm: 0.05 }, { ...gauge, tongueMm: 1 })).toBeCloseTo(
      1.55,
      12,
    );
  });

  it('shares the line’s covariance, and the zero’s besides', () => {
    const without = sharedGaugeError({ zeroBeforeMm: 0.02, zeroAfterMm: 0.02 }, { stepMm: 0.01 });
    const shared = sharedGaugeError({ zeroBeforeMm: 0.02, zeroAfterMm: 0.02 }, gauge);
    expect(shared.zeroVarianceMm2).toBeCloseTo((without.zeroVarianceMm2 + 4e-6) / 1.0404, 12);
    expect(shared.spanVariance).toBeCloseTo(2.5e-5 / 1.0404, 12);
    expect(shared.zeroSpanCovarianceMm).toBeCloseTo(-4e-6 / 1.0404, 12);
  });
});

describe('the noise of one reading', () => {
  it('is its seating, and its placement on the slopes of the surface', () => {
    const noise = { seatingMm: 0.003, alongMm: 0.2, acrossMm: 0.1 };
    // 0.003^2 + (0.02 * 0.2)^2 + (0.12 * 0.1)^2 = 9e-6 + 16e-6 + 144e-6 = 0.013^2.
    expect(Math.sqrt(readingVariance(noise, -0.02, 0.12))).toBeCloseTo(0.013, 12);
  });

  it('has the resolution of a step, a rectangle over it', () => {
    expect(resolutionU(0.01)).toBeCloseTo(0.0028868, 7);
  });

  it('is usually two fifths of the step, and never less than a micrometre and a half', () => {
    expect(usualSeatingMm(0.005)).toBeCloseTo(0.002, 12);
    expect(usualSeatingMm(0.001)).toBe(0.0015);
  });
});

describe('the top of a parabola through three values', () => {
  it('lies where calculus has it, at most one step away', () => {
    // 1 - (x - 0.25)^2 at -1, 0, 1.
    expect(parabolaTop(1 - 1.5625, 1 - 0.0625, 1 - 0.5625)).toBeCloseTo(0.25, 12);
    expect(parabolaTop(1 - 9, 1 - 4, 1 - 1)).toBe(1);
    expect(parabolaTop(1 - 1, 1 - 4, 1 - 9)).toBe(-1);
    expect([parabolaTop(2, 0, 1), parabolaTop(1, 0, 2)]).toEqual([-1, 1]);
  });
});

describe('the span of a gauge', () => {
  const check = (day: number, slope: number): GaugeCheck => ({
    takenAt: `2024-05-0${day}T10:00:00Z`,
    known: [0, 0.3, 0.6].map((nominalMm) => ({ nominalMm, nominalUMm: 0.001, shownMm: [slope * nominalMm] })),
  });

  it('has moved beyond 1.96 standard uncertainties of both slopes together', () => {
    const [first] = checkHistory([check(1, 1)], 0.01, 0.003);
    expect(first!.line!.slope).toBeCloseTo(1, 9);
    // Weights alike: u / sqrt of the sum of squares about the mean, 0.18; u is 0.001, 0.01 / sqrt 12 and 0.003 together.
    const u = Math.sqrt(1e-6 + 1e-4 / 12 + 9e-6) / Math.sqrt(0.18);
    expect(first!.line!.uSlope).toBeCloseTo(u, 9);
    const moved = (sds: number) =>
      checkHistory([check(1, 1), check(2, 1 + sds * u * Math.SQRT2)], 0.01, 0.003)[1]!.spanMoved;
    expect([0, 1.95, 1.97, -1.95, -1.97].map(moved)).toEqual([false, false, true, false, true]);
  });
});

describe('the scatter of repeats', () => {
  it('is that about the stations’ means where it is many steps wide', () => {
    // 40 and 0 steps in two stations: 800 over 2 degrees of freedom, a standard deviation of 20 steps.
    const { seatingMm, dof } = repeatability(
      [
        [0.1, 0.5],
        [0.3, 0.3],
      ],
      0.01,
    );
    expect(dof).toBe(2);
    expect(seatingMm / 0.2).toBeCloseTo(1, 2);
    expect(() => repeatability([[0.1, 0.2]], 0)).toThrow('stepMm: must be positive, got 0');
  });
});
