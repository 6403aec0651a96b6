import { dot } from '../numerics/quadratic-form.ts';
import { addRow } from '../numerics/sparse-rows.ts';
import { solveUpper } from '../numerics/row-products.ts';
import { stateCount } from './blade-state.ts';
import { figuresOf } from './posterior-figures.ts';
import type { BladePosterior, ReedModel, Together } from './reed-model.ts';
import { throughPasses, type BladeHistory, type StateWeights } from './through-passes.ts';
import { wayBack, type LookedBack } from './way-back.ts';

/** One blade's surfaces after each of its steps, worked out when they are first asked for. */
export type BladeViews = {
  readonly [key in 'after' | 'meanAfter' | 'taken' | 'together']: ReedModel[key] extends (
    blade: infer _,
    ...rest: infer Rest
  ) => infer Result
    ? (...rest: Rest) => Result
    : never;
};

/** How many states beside the last are kept: a screen shows a pass and the one before it. */
const KEPT = 4;

/** The step that a blade stands at after a pass. A blade that was not read yet is as its first pass found it. */
function stepAt(steps: BladeHistory['steps'], pass: number): number {
  const last = steps.findLastIndex((step) => step.pass <= pass);
  return Math.max(0, last);
}

/** @param last After the last step. */
export function bladeViews(
  history: BladeHistory,
  last: BladePosterior,
  sharedMean: Float64Array,
): BladeViews {
  const { steps } = history;
  const lookBack = looking(history, last, sharedMean);
  let means: readonly Float64Array[] | undefined;
  const stepOf = (pass: number) => stepAt(steps, pass);
  const surface = (step: number) => (step === steps.length - 1 ? last : lookBack(step).posterior);
  const takenBetween = (from: number, to: number): BladePosterior => {
    const opened = steps.flatMap(({ removal }, at) => (removal && at > from && at <= to ? [at] : []));
    const [only] = opened;
    if (only === undefined) return nothing(last);
    return opened.length === 1 ? lookBack(only).taken! : takenOver(history, from, to, sharedMean);
  };
  const together = (figures: readonly (readonly StateWeights[])[]): Together => {
    const [first, second, ...others] = [...new Set(figures.flat().map(({ step }) => step))].sort(
      (a, b) => a - b,
    );
    const at = (step: number) => figures.map((terms) => weightsAt(terms, step, last.mean.length));
    if (first === undefined) return figuresOf(last, at(0));
    if (second === undefined) return figuresOf(surface(first), at(first));
    if (others.length === 0 && areDifferences(at(first), at(second)))
      return figuresOf(takenBetween(first, second), at(first));
    return withShared(throughPasses(history, figures), sharedMean);
  };
  return {
    after: (pass) => surface(stepOf(pass)),
    meanAfter: (pass) => {
      const step = stepOf(pass);
      return step === steps.length - 1 ? last.mean : (means ??= meansBack(history, last, sharedMean))[step]!;
    },
    taken: (before, after) => takenBetween(stepOf(before), stepOf(after)),
    together: (figures) =>
      together(figures.map((terms) => terms.map(({ pass, weights }) => ({ step: stepOf(pass), weights })))),
  };
}

/** States by their steps, from a walk back that goes on where it stood, and begins anew for what lies behind it. */
function looking(history: BladeHistory, last: BladePosterior, sharedMean: Float64Array) {
  const kept = new Map<number, LookedBack>();
  const begin = () => ({ walk: wayBack(history, last, sharedMean), next: history.steps.length - 1 });
  let at = begin();
  return (step: number): LookedBack => {
    const known = kept.get(step);
    if (known) return known;
    if (at.next < step) at = begin();
    for (;;) {
      const looked = at.walk.next();
      at.next--;
      if (looked.done) throw new RangeError(`step: must be one of ${history.steps.length}, got ${step}`);
      if (looked.value.step > step) continue;
      for (const oldest of [...kept.keys()].slice(0, Math.max(0, kept.size + 1 - KEPT))) kept.delete(oldest);
      kept.set(step, looked.value);
      return looked.value;
    }
  };
}

/** Several terms of one step count together; the weights themselves where there is one. */
function weightsAt(terms: readonly StateWeights[], step: number, count: number): Float64Array {
  const own = terms.filter((term) => term.step === step);
  if (own.length === 1) return own[0]!.weights;
  const sum = new Float64Array(count);
  for (const { weights } of own) for (let m = 0; m < count; m++) sum[m]! += weights[m]!;
  return sum;
}

function areDifferences(before: readonly Float64Array[], after: readonly Float64Array[]): boolean {
  return before.every((weights, i) => weights.every((weight, m) => weight === -after[i]![m]!));
}

function nothing({ mean, loadings }: BladePosterior): BladePosterior {
  return {
    mean: new Float64Array(mean.length),
    covariance: new Float64Array(mean.length ** 2),
    loadings: new Float64Array(loadings.length),
  };
}

/** What went over several passes, in the coefficients of a surface. */
function takenOver(
  history: BladeHistory,
  from: number,
  to: number,
  sharedMean: Float64Array,
): BladePosterior {
  const { base, removal, shared } = history.size;
  const d = base + removal;
  const unit = (step: number, m: number, value: number) => ({
    step,
    weights: new Float64Array(d).fill(value, base + m, base + m + 1),
  });
  const figures = Array.from({ length: removal }, (_, m) => [unit(from, m, 1), unit(to, m, -1)]);
  const { valuesMm, own, loads } = withShared(throughPasses(history, figures), sharedMean);
  const taken = {
    mean: new Float64Array(d),
    covariance: new Float64Array(d * d),
    loadings: new Float64Array(d * shared),
  };
  taken.mean.set(valuesMm, base);
  loads.forEach((load, m) => taken.loadings.set(load, (base + m) * shared));
  for (let m = 0; m < removal; m++)
    taken.covariance.set(own.subarray(m * removal, (m + 1) * removal), (base + m) * d + base);
  return taken;
}

function withShared(
  { values, own, loads }: ReturnType<typeof throughPasses>,
  sharedMean: Float64Array,
): Together {
  return { valuesMm: values.map((value, i) => value + dot(loads[i]!, sharedMean)), own, loads };
}

/** The means after all steps, by what later readings surprised by: a few products a step. */
function meansBack(
  { size, steps, spread }: BladeHistory,
  last: BladePosterior,
  sharedMean: Float64Array,
): readonly Float64Array[] {
  const d = stateCount(size);
  const means: Float64Array[] = [];
  const pulled = new Float64Array(d);
  let mean = last.mean;
  for (let step = steps.length - 1; step >= 0; step--) {
    means[step] = mean;
    const { rows, factor, white, errors, surprise, removal } = steps[step]!;
    const columns = d + errors;
    const left = surprise.map(
      (value, i) =>
        value -
        dot(pulled, white.subarray(i * columns, i * columns + d)) -
        dot(white.subarray(i * columns + d, (i + 1) * columns), sharedMean),
    );
    if (rows.count > 0) solveUpper(factor, rows.count, left, 1);
    left.forEach((value, i) => addRow(pulled, rows, i, value));
    if (!removal) continue;
    mean = mean.slice();
    spread.times(removal, pulled.slice(size.base), 1).forEach((value, m) => (mean[size.base + m]! -= value));
  }
  return means;
}
