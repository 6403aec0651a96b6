import { describe, expect, it } from 'vitest';
import { believableChangeMm } from '../../src/gauge/believable-change.ts';
import { repeatability } from '../../src/gauge/repeatability.ts';
import { fitStraightLine, predict } from '../../src/gauge/straight-line.ts';
import { resolutionU } from '../../src/gauge/resolution.ts';
import {
  logNormalInterval,
  normalQuantile,
  normalUpperTail,
} from '../../src/numerics/normal-distribution.ts';
import { studentCoverageFactor } from '../../src/numerics/student-quantile.ts';
import checks from './data/check-values.json' with { type: 'json' };
import lines from './data/straight-lines.json' with { type: 'json' };

/** Half of the last printed digit stands in `within`, unless said otherwise. */
function expectNear(actual: number, expected: number, within: number): void {
  expect(Math.abs(actual - expected), `${actual} is not ${expected}`).toBeLessThanOrEqual(within);
}
function expectRelative(actual: number, expected: number, relative: number): void {
  expectNear(actual, expected, relative * Math.abs(expected));
}

interface Case {
  readonly id: string;
  readonly inputs: {
    readonly x: number[];
    readonly y: number[];
    readonly u_y?: number[];
    readonly xOrigin?: number;
  };
  readonly outputs: {
    readonly [name: string]: unknown;
    readonly forward?: { x: number; value: number; u: number }[];
    readonly inverse?: { y: number; u_y: number; x: number; u: number }[];
  };
}

describe('straight line', () => {
  // NIST StRD Norris, JCGM 100:2008 H.3, ISO/TS 28037:2010 clause 6, and an invented feeler check: exact arithmetic in
  // straight-lines.json, which gives the tolerance of 1e-10.
  for (const { id, inputs, outputs } of lines.outputs.cases as Case[]) {
    it(`agrees with ${id}`, () => {
      const origin = inputs.xOrigin ?? 0;
      const line = fitStraightLine(
        inputs.x.map((x) => x - origin),
        inputs.y,
        inputs.u_y,
      );
      expectRelative(line.intercept, outputs['intercept'] as number, 1e-10);
      expectRelative(line.slope, outputs['slope'] as number, 1e-10);
      expectRelative(line.uIntercept, outputs['u_intercept'] as number, 1e-10);
      expectRelative(line.uSlope, outputs['u_slope'] as number, 1e-10);
      expectRelative(line.covariance, outputs['covariance'] as number, 1e-10);
      expectRelative(line.weightedRss, outputs['weightedRss'] as number, 1e-10);
      expect(line.dof).toBe(outputs['dof']);
      for (const { x, value, u } of outputs.forward ?? []) {
        expectRelative(predict(line, x - origin).value, value, 1e-10);
        expectRelative(predict(line, x - origin).u, u, 1e-9);
      }
    });
  }

  it('predicts as surely far from the origin as near it', () => {
    // y = x about x = 1, 2, 3 with u = 0.01: at the middle u = 0.01 / sqrt(3), 2 away sqrt(1/3 + 4/2) times 0.01.
    const farMm = 1e7;
    const line = fitStraightLine([farMm + 1, farMm + 2, farMm + 3], [1, 2, 3], [0.01, 0.01, 0.01]);
    expectRelative(predict(line, farMm + 2).u, 0.01 / Math.sqrt(3), 1e-12);
    expectRelative(predict(line, farMm + 4).u, 0.01 * Math.sqrt(1 / 3 + 2), 1e-12);
    expectRelative(predict(line, farMm + 4).value, 4, 1e-12);
  });
});

describe('the step of a display', () => {
  it('has the uncertainty of a rectangle as wide', () => {
    expectNear(resolutionU(0.01), checks.F_own_example['uB_res_0.01'], 5e-9);
  });
});

describe('believable change', () => {
  it('is the repeatability limit of ISO 5725-6 with its exact factor', () => {
    const { exact_factor, mdd_mean_of_n, mdd_t_df } = checks.F_repeatability_limit;
    expectRelative(believableChangeMm(1), exact_factor, 1e-12);
    for (const [n, um] of Object.entries(mdd_mean_of_n))
      expectNear(1000 * believableChangeMm(0.004, Number(n)), um, 5e-5);
    for (const dof of [4, 9] as const)
      expectNear(1000 * believableChangeMm(0.004, 1, dof), mdd_t_df[dof], 5e-5);
  });
});

describe('distributions', () => {
  it('agree with published t factors', () => {
    // Printed tables, recomputed in SciPy 1.10 and R 4.2.
    for (const [dof, t] of Object.entries(checks['K_t_0.975']))
      expectNear(studentCoverageFactor(0.95, Number(dof)), t, 5.1e-7);
    for (const [dof, t] of Object.entries(checks['K_t_0.995']))
      expectNear(studentCoverageFactor(0.99, Number(dof)), t, 5.1e-7);
  });

  it('agree with SciPy 1.17 to twelve digits', () => {
    expectRelative(studentCoverageFactor(0.95, 16), 2.1199052992212546, 1e-12);
    expectRelative(studentCoverageFactor(0.99, 37), 2.7154087215499882, 1e-12);
    expectRelative(studentCoverageFactor(0.95, 1000), 1.9623390808264083, 1e-12);
    expectRelative(normalQuantile(0.975), 1.959963984540054, 1e-14);
    expectRelative(normalUpperTail(0.3), 0.3820885778110474, 1e-13);
    expectRelative(normalUpperTail(1.3), 0.09680048458561036, 1e-13);
    expectRelative(normalUpperTail(2.6), 0.004661188023718747, 1e-13);
    expectRelative(normalUpperTail(9), 1.1285884059538324e-19, 1e-12);
    expectRelative(logNormalInterval(10, 10.5), -53.23696937175251, 1e-12);
    expectRelative(logNormalInterval(-3, 0.4), -0.4245380809914792, 1e-12);
    expectRelative(logNormalInterval(40, Infinity), -804.6084420137539, 1e-12);
  });
});

describe('repeatability from rounded readings', () => {
  it('agrees with the integrated likelihood maximised in SciPy', () => {
    // scipy.integrate.quad over each station's thickness, minimize_scalar over log sd, in steps: 0.4948516.
    const stations = [
      [0.47, 0.48, 0.47, 0.46, 0.47],
      [0.52, 0.52, 0.53, 0.52],
      [0.12, 0.12, 0.12],
      [0.3, 0.31],
    ];
    const { seatingMm, sdMm, dof } = repeatability(stations, 0.01);
    expectNear(seatingMm, 0.00494851601804144, 1e-8);
    expectNear(sdMm, Math.hypot(seatingMm, resolutionU(0.01)), 1e-15);
    expect(dof).toBe(10);
  });
});
