import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { controlChart } from '../../src/learning/control-chart.ts';
import { principalComponents } from '../../src/learning/principal-components.ts';
import { centred, dot, falseDiscoveryRates, rankChance, ranks } from '../../src/learning/rank-correlation.ts';
import {
  endingsByCause,
  medianInterval,
  medianLifetime,
  survivalCurve,
} from '../../src/learning/survival.ts';
import checks from './data/check-values.json' with { type: 'json' };
import usArrests from './data/usarrests.json' with { type: 'json' };

describe('survival', () => {
  // Remission times of the treated group in Freireich et al. 1963, weeks; the data set that textbooks use for the
  // Kaplan-Meier estimate. Recomputed with survfit of R's survival 3.5-3: surv and std.err to six digits.
  const ended = [6, 6, 6, 7, 10, 13, 16, 22, 23];
  const goingOn = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
  const lifetimes = [
    ...ended.map((duration) => ({ duration, cause: 'relapse' })),
    ...goingOn.map((duration) => ({ duration })),
  ];

  it('agrees with the published Kaplan-Meier curve and its standard errors', () => {
    const curve = survivalCurve(lifetimes);
    expect(curve.map(({ duration }) => duration)).toEqual([6, 7, 10, 13, 16, 22, 23]);
    expect(curve.map(({ atRisk }) => atRisk)).toEqual([21, 17, 15, 12, 11, 7, 6]);
    const surviving = [0.857143, 0.806723, 0.752941, 0.690196, 0.627451, 0.537815, 0.448179];
    const errors = [0.0763604, 0.0869353, 0.0963497, 0.1068147, 0.1140539, 0.1282338, 0.1345915];
    curve.forEach((step, i) => {
      expect(Math.abs(step.surviving - surviving[i]!)).toBeLessThan(6e-7);
      expect(Math.abs(step.u - errors[i]!)).toBeLessThan(6e-7);
    });
    expect(medianLifetime(curve)).toBe(23);
  });

  it('has the usual median where every reed has ended, of any number', () => {
    // The middle value, or the mean of the two middle ones; shares of n multiplied step by step miss a half by rounding.
    for (let n = 1; n <= 300; n++) {
      const durations = Array.from({ length: n }, (_, i) => (i + 1) ** 1.5);
      const usual = (durations[(n - 1) >> 1]! + durations[n >> 1]!) / 2;
      const curve = survivalCurve(durations.map((duration) => ({ duration, cause: 'worn out' })));
      expect(medianLifetime(curve), `${n} reeds`).toBe(usual);
    }
  });

  it('has the first of the two where those still alive leave the end of the stretch open', () => {
    const curve = survivalCurve([{ duration: 3, cause: 'worn out' }, { duration: 8 }]);
    expect(medianLifetime(curve)).toBe(3);
  });

  it('has the interval of the same data by survfit with conf.type "log-log"', () => {
    const curve = survivalCurve(lifetimes);
    // survival 3.5-3: lower and upper to eight digits; median 23, 95 % from 13 to unknown.
    const low = [0.61971796, 0.56314656, 0.50319951, 0.43161022, 0.36751086, 0.26777894, 0.18805201];
    const high = [0.95155175, 0.92280902, 0.88936184, 0.84906596, 0.80491219, 0.74679072, 0.68014263];
    curve.forEach(({ interval }, i) => {
      // The normal factor is written with seven digits.
      expect(Math.abs(interval[0] - low[i]!)).toBeLessThan(1e-7);
      expect(Math.abs(interval[1] - high[i]!)).toBeLessThan(1e-7);
    });
    expect(medianInterval(curve)).toEqual([13, undefined]);
  });

  // A made-up set; shares and standard errors by survfit of R's survival 3.5-3 with a factor of causes, which takes the
  // infinitesimal jackknife: it agrees with the delta method to a few per cent for so few reeds.
  const durations = [2, 3, 3, 5, 6, 7, 7, 8, 10, 11, 12, 14, 15, 15, 18, 20];
  const endedBy = [1, 2, 0, 1, 1, 2, 0, 1, 2, 1, 0, 1, 1, 0, 2, 0];
  const competing = durations.map((duration, i) => ({
    duration,
    ...(endedBy[i]! > 0 && { cause: endedBy[i] === 1 ? 'worn out' : 'chipped' }),
  }));

  it('shares endings among competing causes as R does', () => {
    const shares = endingsByCause(competing);
    const last = (cause: string) => shares.get(cause)!.at(-1)!;
    expect(last('worn out').share).toBeCloseTo(0.52617521, 7);
    expect(last('chipped').share).toBeCloseTo(0.3392094, 7);
    expect(shares.get('worn out')!.find(({ duration }) => duration === 8)!.share).toBeCloseTo(0.27190171, 7);
    expect(Math.abs(last('worn out').u / 0.139637679 - 1)).toBeLessThan(0.06);
    expect(Math.abs(last('chipped').u / 0.142923955 - 1)).toBeLessThan(0.06);
  });

  it("gives a single cause Greenwood's standard error", () => {
    const [steps] = [...endingsByCause(lifetimes).values()];
    survivalCurve(lifetimes).forEach(({ surviving, u }, i) => {
      expect(steps![i]!.share).toBeCloseTo(1 - surviving, 12);
      expect(steps![i]!.u).toBeCloseTo(u, 12);
    });
  });

  it('gives every reed to a cause or to the survivors', () => {
    const lifetime = fc.record(
      { duration: fc.integer({ min: 0, max: 40 }), cause: fc.constantFrom('chipped', 'worn out') },
      { requiredKeys: ['duration'] },
    );
    fc.assert(
      fc.property(fc.array(lifetime, { minLength: 1, maxLength: 40 }), (reeds) => {
        const shares = [...endingsByCause(reeds).values()].map((steps) => steps.at(-1)!.share);
        const left = survivalCurve(reeds).at(-1)?.surviving ?? 1;
        expect(shares.reduce((a, b) => a + b, left)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('names a duration that cannot be', () => {
    expect(() => survivalCurve([{ duration: 3 }, { duration: -1 }])).toThrow('lifetimes[1].duration');
  });
});

describe('control chart', () => {
  it('has limits at 2.66 mean moving ranges, the constant of ISO 7870-2', () => {
    const values = [59, 58, 60, 59, 61, 58, 59, 60, 59, 60];
    const chart = controlChart(values);
    const movingRange = [1, 2, 1, 2, 3, 1, 1, 1, 1].reduce((a, b) => a + b) / 9;
    expect((chart.upper - chart.centre) / movingRange).toBeCloseTo(2.66, 2);
    // d2 of two is tabulated as 1.128.
    expect(movingRange / chart.sd).toBeCloseTo(1.128, 3);
    expect(chart.signals.flat()).toEqual([]);
  });

  it('signals a jump, a long run and a trend', () => {
    const jump = controlChart([59, 58, 60, 59, 61, 58, 59, 60, 59, 75]);
    expect(jump.signals[9]).toContain('outside the limits');
    const run = controlChart([
      9, 9.2, 9.1, 9.3, 9.2, 9.1, 9.2, 9.3, 9.1, 1, 1.2, 1.1, 1, 1.1, 1.2, 1, 1.1, 1.2,
    ]);
    expect(run.signals[17]).toContain('nine on one side');
    const trend = controlChart([5, 4, 5, 4, 5, 5.1, 5.2, 5.3, 5.4, 5.5]);
    expect(trend.signals[9]).toContain('six rising or falling');
  });

  it('asks for enough pieces', () => {
    expect(() => controlChart([1, 2, 3])).toThrow('values: must be at least 8');
  });
});

describe('rank correlation', () => {
  it('agrees with the textbook pair and with R', () => {
    const { x, y, rho, p_exact_two_sided_R: p } = checks.K_spearman;
    const [a, b] = [x, y].map((values) => centred(ranks(values))) as [number[], number[]];
    const found = dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b));
    expect(found).toBeCloseTo(rho, 12);
    expect(rankChance(found, x.length)).toBeCloseTo(p, 6);
  });

  it('shares ranks among ties', () => {
    expect(ranks([3, 1, 3, 2])).toEqual([3.5, 1, 3.5, 2]);
  });

  it('adjusts for many comparisons as Benjamini & Hochberg 1995 and R do', () => {
    falseDiscoveryRates(checks.K_bh.p).forEach((q, i) => expect(q).toBeCloseTo(checks.K_bh.q[i]!, 9));
  });
});

describe('principal components', () => {
  it("agrees with R's prcomp on its published example", () => {
    const columns = usArrests.columns.map((_, j) => {
      const values = usArrests.rows.map((row) => row[j]!);
      const mean = values.reduce((a, b) => a + b) / values.length;
      const sd = Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
      return values.map((value) => (value - mean) / sd);
    });
    const scaled = usArrests.rows.map((_, i) => columns.map((column) => column[i]!));
    const { sd, share, directions, scores } = principalComponents(scaled);
    const expected = checks.K_prcomp_USArrests_scaled;
    sd.forEach((value, k) => expect(value).toBeCloseTo(expected.sdev[k]!, 9));
    share.forEach((value, k) => expect(value).toBeCloseTo(expected.prop_var[k]!, 5));
    const first = Object.values(expected.rotation_PC1);
    directions[0]!.forEach((value, j) => expect(Math.abs(value)).toBeCloseTo(Math.abs(first[j]!), 9));
    expect(Math.abs(scores[0]![0]!)).toBeCloseTo(Math.abs(expected.scores.Alabama[0]!), 8);
  });

  it('finds a planted direction in weighted profiles, in their own unit', () => {
    const shape = [0, 0.01, 0.03, 0.01, 0];
    const profiles = [-2, -1, 0, 1, 2].map((size) => shape.map((value) => 0.4 + size * value));
    const { share, scores, directions, mean } = principalComponents(profiles, [1, 2, 2, 2, 1]);
    expect(share[0]).toBeCloseTo(1, 12);
    profiles.forEach((row, i) =>
      row.forEach((value, j) =>
        expect(mean[j]! + scores[i]![0]! * directions[0]![j]!).toBeCloseTo(value, 12),
      ),
    );
  });
});
