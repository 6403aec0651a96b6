import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Blade } from '../../shared/blade.ts';
import { dot } from '../../src/numerics/quadratic-form.ts';
import { timesMatrix } from '../../src/numerics/row-products.ts';
import { posteriorOf, stateCount, sharedCovarianceOf } from '../../src/surface/blade-state.ts';
import type { BasePrior } from '../../src/surface/base-prior.ts';
import type { RemovalSpread } from '../../src/surface/removal-space.ts';
import type { SharedError } from '../../src/surface/shared-errors.ts';
import { sweepPasses, type BladeToFit, type NoisyReading, type Sweep } from '../../src/surface/sweep.ts';
import type { TensorBasis } from '../../src/surface/tensor-basis.ts';
import { wayBack } from '../../src/surface/way-back.ts';
import type { BladePosterior } from '../../src/surface/reed-model.ts';
import { throughPasses, type BladeHistory, type StateWeights } from '../../src/surface/through-passes.ts';

// Exact posteriors of small joint fits, worked out with 60 digits by dense conditioning: no state, filter or sweep there.

interface Sparse {
  index: number[];
  weight: number[];
}
interface FixtureReading {
  blade?: Blade;
  pass: number;
  zMm: number;
  across: number;
  thicknessMm: number;
  variance: number;
  slopeAlong: number;
}
interface Answer {
  valuesMm: number[];
  covarianceLower: number[][];
}
interface Problem {
  name: string;
  meanMm: number;
  base: TensorBasis;
  removal: TensorBasis;
  lengthsMm: number[];
  sharedVariances: [number, number, number][];
  blades: Partial<
    Record<
      Blade,
      {
        passesRead: number[];
        basePriorLower: number[][];
        removalPriorsLower: Record<string, number[][]>;
        readings: FixtureReading[];
      }
    >
  >;
  functionals: {
    name: string;
    weights: Partial<Record<Blade, { theta: Sparse; removals: Record<string, Sparse> }>>;
  }[];
  posterior: Answer;
  shared: { means: number[]; covarianceLower: number[][] };
  upTo: Answer & { pass: number; functionals: number[] };
  oneMore: Answer & { reading: FixtureReading & { blade: Blade } };
}

const { problems } = JSON.parse(
  readFileSync(new URL('data/linear-reference.json', import.meta.url), 'utf8'),
) as { problems: Problem[] };

const square = (lower: number[][]) => {
  const n = lower.length;
  return Float64Array.from({ length: n * n }, (_, k) => {
    const [i, j] = [Math.floor(k / n), k % n];
    return lower[Math.max(i, j)]![Math.min(i, j)]!;
  });
};

/** The fixture's removals are spread by whole covariances. */
const dense = (size: number): RemovalSpread => ({
  size,
  variances: (q) => Float64Array.from({ length: size }, (_, m) => q[m * size + m]!),
  full: (q) => q,
  times: (q, x, width) =>
    timesMatrix({ values: q, rows: size, columns: size, stride: size }, x.slice(0, size * width)),
});

const noisy = (blade: Blade, reading: FixtureReading): NoisyReading => ({
  reading: {
    blade,
    fromTipMm: 0,
    across: reading.across,
    thicknessMm: reading.thicknessMm,
    repeats: 1,
    noiseFactor: 1,
  },
  pass: reading.pass,
  zMm: reading.zMm,
  variance: reading.variance,
  slopeAlong: reading.slopeAlong,
});

const errorsOf = ({ sharedVariances }: Problem): SharedError[] =>
  sharedVariances.flatMap((variances, pass) =>
    (['zero', 'swelling', 'length'] as const).map((kind, m) => ({ kind, pass, variance: variances[m]! })),
  );

interface Fitted {
  sweep: Sweep;
  histories: Partial<Record<Blade, BladeHistory>>;
}

function fit(
  problem: Problem,
  isIn: (reading: FixtureReading) => boolean,
  more: FixtureReading[] = [],
): Fitted {
  const toFit: Partial<Record<Blade, BladeToFit>> = {};
  for (const [name, blade] of Object.entries(problem.blades)) {
    const own = [...blade.readings.filter(isIn), ...more.filter((reading) => reading.blade === name)];
    if (own.length === 0) continue;
    const spread = dense(problem.removal.along.count * problem.removal.across.count);
    const priors = new Map(
      Object.entries(blade.removalPriorsLower).map(([pass, lower]) => [Number(pass), square(lower)]),
    );
    toFit[name as Blade] = {
      // So far from its ridge that the coordinate runs as z does, but for a shift.
      base: { warp: { ridgeMm: 0, widthMm: 1, strength: 0 }, basis: problem.base },
      removal: problem.removal,
      prior: { meanMm: problem.meanMm, covariance: square(blade.basePriorLower) },
      readings: own.map((reading) => noisy(name as Blade, reading)).sort((a, b) => a.pass - b.pass),
      given: { spread, priors },
    };
  }
  const sweep = sweepPasses(toFit, errorsOf(problem));
  const histories: Fitted['histories'] = {};
  for (const [name, { state, steps }] of Object.entries(sweep.blades)) {
    const { prior, given } = toFit[name as Blade]! as { prior: BasePrior; given: { spread: RemovalSpread } };
    histories[name as Blade] = { size: state.size, prior, steps, spread: given.spread };
  }
  return { sweep, histories };
}

/** A functional's weights by removal, as weights of states: a state holds all removals up to its step. */
function statesOf(
  { size, steps }: BladeHistory,
  weights?: { theta: Sparse; removals: Record<string, Sparse> },
) {
  if (!weights) return [];
  const terms: StateWeights[] = [];
  const later = new Float64Array(size.removal);
  for (let step = steps.length - 1; step >= 0; step--) {
    const own = new Float64Array(stateCount(size));
    const removal = step === 0 ? undefined : weights.removals[steps[step]!.pass];
    const here = new Float64Array(size.removal);
    removal?.index.forEach((k, i) => (here[k] = removal.weight[i]!));
    if (step === 0) weights.theta.index.forEach((k, i) => (own[k] = weights.theta.weight[i]!));
    else here.forEach((value, m) => (own[size.base + m] = value - later[m]!));
    later.set(here);
    terms.push({ step, weights: own });
  }
  return terms;
}

function answer({ sweep, histories }: Fitted, functionals: Problem['functionals']): Answer {
  const n = functionals.length;
  const shared = sharedCovarianceOf(sweep.shared);
  const s = sweep.shared.mean.length;
  const valuesMm = new Array<number>(n).fill(0);
  const covariance = new Float64Array(n * n);
  const loads = functionals.map(() => new Float64Array(s));
  for (const [name, history] of Object.entries(histories)) {
    const spread = throughPasses(
      history,
      functionals.map(({ weights }) => statesOf(history, weights[name as Blade])),
    );
    spread.values.forEach((value, i) => (valuesMm[i]! += value));
    spread.own.forEach((value, k) => (covariance[k]! += value));
    spread.loads.forEach((load, i) => load.forEach((value, m) => (loads[i]![m]! += value)));
  }
  loads.forEach((load, i) => {
    valuesMm[i]! += dot(load, sweep.shared.mean);
    const moved = Float64Array.from({ length: s }, (_, m) => dot(shared.subarray(m * s, (m + 1) * s), load));
    loads.forEach((other, j) => (covariance[i * n + j]! += dot(other, moved)));
  });
  return {
    valuesMm,
    covarianceLower: valuesMm.map((_, i) => Array.from(covariance.subarray(i * n, i * n + i + 1))),
  };
}

const TOLERANCE = 1e-9;

/** Values and covariances agree to a billionth of the uncertainties. */
function expectSame(found: Answer, expected: Answer) {
  const u = expected.covarianceLower.map((row, i) => Math.sqrt(Math.max(0, row[i]!)));
  let worst = 0;
  expected.valuesMm.forEach((value, i) => {
    if (u[i]! < 1e-12) {
      expect(found.valuesMm[i]).toBeCloseTo(value, 14);
      // An error that there is not is held at zero, to a billionth.
      expect(Math.abs(found.covarianceLower[i]![i]!)).toBeLessThan(1e-17);
      return;
    }
    worst = Math.max(worst, Math.abs(found.valuesMm[i]! - value) / u[i]!);
    expected.covarianceLower[i]!.forEach((covariance, j) => {
      if (u[j]! < 1e-12) return;
      worst = Math.max(worst, Math.abs(found.covarianceLower[i]![j]! - covariance) / (u[i]! * u[j]!));
    });
  });
  expect(worst).toBeLessThan(TOLERANCE);
}

/** Every state, and what went between neighbours, by the way back and through the passes. */
function expectLookedBack(history: BladeHistory, { blades, shared }: Sweep) {
  const d = stateCount(history.size);
  const { state } = Object.values(blades).find(({ steps }) => steps === history.steps)!;
  for (const { step, posterior, taken } of wayBack(history, posteriorOf(state, shared.mean), shared.mean)) {
    const weigh = (at: number, factor: number, m: number) => ({
      step: at,
      weights: new Float64Array(d).fill(factor, m, m + 1),
    });
    expectPosterior(
      history,
      Array.from({ length: d }, (_, m) => [weigh(step, 1, m)]),
      posterior,
      shared.mean,
    );
    if (!taken) continue;
    expectPosterior(
      history,
      Array.from({ length: d }, (_, m) => [weigh(step - 1, 1, m), weigh(step, -1, m)]),
      taken,
      shared.mean,
    );
  }
}

function expectPosterior(
  history: BladeHistory,
  figures: readonly (readonly StateWeights[])[],
  { mean, covariance, loadings }: BladePosterior,
  sharedMean: Float64Array,
) {
  const spread = throughPasses(history, figures);
  const d = mean.length;
  const s = sharedMean.length;
  const u = mean.map((_, m) => Math.max(1e-9, Math.sqrt(Math.max(0, spread.own[m * d + m]!))));
  let worst = 0;
  for (let m = 0; m < d; m++) {
    const value = spread.values[m]! + dot(spread.loads[m]!, sharedMean);
    worst = Math.max(worst, Math.abs(value - mean[m]!) / u[m]!);
    for (let k = 0; k < d; k++)
      worst = Math.max(worst, Math.abs(spread.own[m * d + k]! - covariance[m * d + k]!) / (u[m]! * u[k]!));
    for (let k = 0; k < s; k++)
      expect(Math.abs(spread.loads[m]![k]! - loadings[m * s + k]!)).toBeLessThan(TOLERANCE);
  }
  expect(worst).toBeLessThan(TOLERANCE);
}

describe.each(problems)('the sweep over the passes: $name', (problem) => {
  it('has the exact posterior of figures of any passes', () => {
    expectSame(
      answer(
        fit(problem, () => true),
        problem.functionals,
      ),
      problem.posterior,
    );
  });

  it('has the exact posterior of the shared errors', () => {
    const { shared } = fit(problem, () => true).sweep;
    const s = shared.mean.length;
    const covariance = sharedCovarianceOf(shared);
    expectSame(
      {
        valuesMm: [...shared.mean],
        covarianceLower: problem.shared.means.map((_, i) => [...covariance.subarray(i * s, i * s + i + 1)]),
      },
      { valuesMm: problem.shared.means, covarianceLower: problem.shared.covarianceLower },
    );
  });

  it('says after a pass what the readings up to it say', () => {
    const { pass, functionals } = problem.upTo;
    const early = fit(problem, (reading) => reading.pass <= pass);
    expectSame(
      answer(
        early,
        functionals.map((k) => problem.functionals[k]!),
      ),
      problem.upTo,
    );
  });

  it('says the same on the way back, state by state', () => {
    const { sweep, histories } = fit(problem, () => true);
    for (const history of Object.values(histories)) expectLookedBack(history, sweep);
  });

  it('takes one more reading as if it had been among the others', () => {
    expectSame(
      answer(
        fit(problem, () => true, [problem.oneMore.reading]),
        problem.functionals,
      ),
      problem.oneMore,
    );
  });
});
