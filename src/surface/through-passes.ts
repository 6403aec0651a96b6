import { dot } from '../numerics/quadratic-form.ts';
import { rowTimes } from '../numerics/sparse-rows.ts';
import { blockTimes, whitenedVector } from '../numerics/whitening.ts';
import type { BasePrior } from './base-prior.ts';
import { stateCount, type StateSize, type Step } from './blade-state.ts';
import type { RemovalSpread } from './removal-space.ts';

/** What figures of any passes rest on: one blade's steps, and what was believed before them. */
export interface BladeHistory {
  readonly size: StateSize;
  readonly prior: BasePrior;
  readonly steps: readonly Step[];
  readonly spread: RemovalSpread;
}

/** Weights of the state after a step: d numbers. */
export interface StateWeights {
  /** Place of the step. */
  readonly step: number;
  readonly weights: Float64Array;
}

/** Figures of one blade: values where the shared errors are zero, covariance where they are given, and how they move with them. */
export interface OwnSpread {
  readonly values: Float64Array;
  /** n x n, row by row. */
  readonly own: Float64Array;
  /** One of M for each figure. */
  readonly loads: readonly Float64Array[];
}

/** A figure on its way through the steps: how the state's error goes with it. */
interface Figure {
  readonly terms: readonly StateWeights[];
  readonly with: Float64Array;
  readonly load: Float64Array;
}

/** Figures of several passes of one blade, each a sum of weighted states: a few products a step, whatever the figure. */
export function throughPasses(
  history: BladeHistory,
  figures: readonly (readonly StateWeights[])[],
): OwnSpread {
  const { size, steps } = history;
  const begun = figures.map((terms) => begin(history, terms));
  const n = figures.length;
  const own = new Float64Array(n * n);
  begun.forEach(({ figure }, i) =>
    begun.forEach((other, j) => (own[i * n + j] = dot(other.whole, figure.with))),
  );
  const { meanMm, learned } = history.prior;
  const values = Float64Array.from(
    begun,
    ({ whole }) => meanMm * sumOf(whole) + (learned ? dot(learned.offsetMm, whole) : 0),
  );
  const on = begun.map(({ figure }) => figure);
  const first = begun.every(({ whole }) => whole.every((weight) => weight === 0))
    ? Math.min(...figures.flatMap((terms) => terms.map(({ step }) => step))) + 1
    : 0;
  for (let at = first; at < steps.length; at++) {
    const opened = opening(history, at, on);
    const seen = on.map((figure) => passStep(steps[at]!, size, figure));
    for (let i = 0; i < n; i++) {
      values[i]! += dot(seen[i]!, steps[at]!.surprise);
      for (let j = 0; j < n; j++)
        own[i * n + j]! +=
          (opened ? dot(opened[i]!.through, opened[j]!.weights) : 0) - dot(seen[i]!, seen[j]!);
    }
  }
  return { values, own, loads: on.map(({ load }) => load) };
}

const sumOf = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0);

/** A figure before any step: its weights of the base surface, and their prior covariance. */
function begin({ size, prior }: BladeHistory, terms: readonly StateWeights[]) {
  const whole = new Float64Array(size.base);
  for (const { weights } of terms) for (let m = 0; m < size.base; m++) whole[m]! += weights[m]!;
  const through = new Float64Array(stateCount(size));
  for (let i = 0; i < size.base; i++) {
    const weight = whole[i]!;
    if (weight === 0) continue;
    for (let j = 0; j < size.base; j++) through[j]! += weight * prior.covariance[i * size.base + j]!;
  }
  const load = new Float64Array(size.shared);
  prior.learned?.common.forEach((value, k, { length }) => {
    const count = length / size.base;
    load[k % count]! += whole[Math.floor(k / count)]! * value;
  });
  return { whole, figure: { terms, with: through, load } };
}

/** What opens at a step joins the figures that weigh the state from there on. */
function opening({ size, steps, spread }: BladeHistory, at: number, figures: readonly Figure[]) {
  const { removal } = steps[at]!;
  if (!removal) return undefined;
  return figures.map(({ terms, with: through }) => {
    const weights = new Float64Array(size.removal);
    for (const term of terms)
      if (term.step >= at)
        for (let m = 0; m < weights.length; m++) weights[m]! += term.weights[size.base + m]!;
    const added = spread.times(removal, weights, 1);
    added.forEach((value, m) => (through[size.base + m]! += value));
    return { weights, through: added };
  });
}

/** How a figure goes with a step's readings, whitened; the state's error goes with it less by what they tell. */
function passStep(step: Step, size: StateSize, { with: through, load }: Figure): Float64Array {
  const n = step.rows.count;
  const d = stateCount(size);
  const white = whitenedVector(
    step.factor,
    n,
    Float64Array.from({ length: n }, (_, i) => rowTimes(step.rows, i, through)),
  );
  const told = blockTimes({ values: step.white, columns: d + step.errors, firstRow: 0, offset: 0 }, white);
  for (let m = 0; m < d; m++) through[m]! -= told[m]!;
  for (let m = 0; m < step.errors; m++) load[m]! -= told[d + m]!;
  return white;
}
