import { cholesky, inverseFromCholesky, solveCholesky } from '../numerics/cholesky.ts';
import { multiply } from '../numerics/quadratic-form.ts';
import { rowsTimes, rowTimes, type SparseRows } from '../numerics/sparse-rows.ts';
import { blockTimes, subtractGram, whiten, whitenedVector } from '../numerics/whitening.ts';
import type { BasePrior } from './base-prior.ts';
import type { BladePosterior } from './reed-model.ts';

/**
 * A blade after a pass is a state x = (theta, c): d coefficients, those of the base surface and those of all that went
 * since. Readings are H x + E s + noise, with s the M errors that readings share, on both blades. Given s, x is normal
 * with mean m + G s and covariance P.
 */
export interface StateSize {
  readonly base: number;
  readonly removal: number;
  readonly shared: number;
}

/** What the readings so far say of one blade. */
export interface BladeState {
  readonly size: StateSize;
  /** m, then what the readings pull the shared errors by: d + M. */
  readonly mean: Float64Array;
  /**
   * [P, G; G', -J], (d + M) x (d + M), row by row; J is the precision that the readings give the shared errors. Readings
   * take the same outer products off all four.
   */
  readonly joint: Float64Array;
}

/** Readings of one blade in one pass. */
export interface SeenReadings {
  /** H: n rows. */
  readonly rows: SparseRows;
  /** E: n x errors, row by row; errors that no reading shares so far are left out. */
  readonly effects: Float64Array;
  readonly errors: number;
  readonly thicknessMm: Float64Array;
  readonly variances: Float64Array;
}

/** A step of the state: readings taken in, and what opened before them. Plain data. */
export interface Step {
  /** Place of the pass. */
  readonly pass: number;
  /** What the prior of the pass's removal follows from; absent where nothing new opens. */
  readonly removal?: Float64Array;
  readonly rows: SparseRows;
  /** L, n x n, lower: L L' is the covariance of the readings before they were read, shared errors given. */
  readonly factor: Float64Array;
  /** [W, X]: L^-1 times the covariance of the readings with the state, and how they move with the shared errors. */
  readonly white: Float64Array;
  /** X's columns. */
  readonly errors: number;
  /** L^-1 times what the readings surprised by. */
  readonly surprise: Float64Array;
}

export const stateCount = ({ base, removal }: StateSize) => base + removal;

/** A blade before its first reading: nothing has gone, exactly. */
export function unreadState(size: StateSize, { meanMm, covariance, learned }: BasePrior): BladeState {
  const total = stateCount(size) + size.shared;
  const mean = new Float64Array(total).fill(meanMm, 0, size.base);
  const joint = new Float64Array(total * total);
  for (let i = 0; i < size.base; i++)
    joint.set(covariance.subarray(i * size.base, (i + 1) * size.base), i * total);
  if (!learned) return { size, mean, joint };
  const { offsetMm, common, count } = learned;
  offsetMm.forEach((value, i) => (mean[i]! += value));
  common.forEach((value, k) => {
    const [row, column] = [Math.floor(k / count), stateCount(size) + (k % count)];
    joint[row * total + column] = value;
    joint[column * total + row] = value;
  });
  return { size, mean, joint };
}

/** Makes room for what goes before the next readings: Q, removal x removal, joins the doubt of what has gone. */
export function openRemoval({ size, joint }: BladeState, prior: Float64Array): void {
  const { base, removal, shared } = size;
  const total = base + removal + shared;
  for (let i = 0; i < removal; i++)
    for (let j = 0; j < removal; j++) joint[(base + i) * total + base + j]! += prior[i * removal + j]!;
}

/** [H P, H G + E]: how the readings go with the state and move with the shared errors. */
export function throughState({ size, joint }: BladeState, seen: SeenReadings): Float64Array {
  const d = stateCount(size);
  const columns = d + seen.errors;
  const crossCovariance = rowsTimes(seen.rows, joint, d + size.shared, columns);
  for (let i = 0; i < seen.rows.count; i++)
    for (let m = 0; m < seen.errors; m++)
      crossCovariance[i * columns + d + m]! += seen.effects[i * seen.errors + m]!;
  return crossCovariance;
}

/** H P H' and the noise; lower triangle. */
export function readingsCovariance(
  { rows, variances }: SeenReadings,
  crossCovariance: Float64Array,
): Float64Array {
  const n = rows.count;
  const columns = crossCovariance.length / n;
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) covariance[i * n + j] = rowTimes(rows, j, crossCovariance, i * columns);
    covariance[i * n + i]! += variances[i]!;
  }
  return covariance;
}

/** What the readings differ by from what the state leads to expect, the shared errors at zero. */
export function surprises({ mean }: BladeState, { rows, thicknessMm }: SeenReadings): Float64Array {
  return thicknessMm.map((value, i) => value - rowTimes(rows, i, mean));
}

/**
 * Takes readings into the state, in place. The work is n (d + M)^2 / 2, whatever was read before.
 *
 * @param crossCovariance Used up.
 */
export function takeIn(
  state: BladeState,
  seen: SeenReadings,
  crossCovariance: Float64Array,
): Omit<Step, 'pass' | 'removal'> {
  const { rows, errors } = seen;
  const n = rows.count;
  const columns = stateCount(state.size) + errors;
  const factor = cholesky(readingsCovariance(seen, crossCovariance), n);
  const white = { values: crossCovariance, columns, firstRow: 0, offset: 0 };
  whiten(factor, n, white);
  const surprise = whitenedVector(factor, n, surprises(state, seen));
  blockTimes(white, surprise).forEach((value, m) => (state.mean[m]! += value));
  subtractGram(state.joint, state.mean.length, [white]);
  return { rows, factor, white: crossCovariance, errors, surprise };
}

/** The mean that readings would give a state that shares no errors, which stays as it is. */
export function likeliestState(state: BladeState, seen: SeenReadings): Float64Array {
  const n = seen.rows.count;
  const crossCovariance = throughState(state, seen);
  const weights = solveCholesky(
    cholesky(readingsCovariance(seen, crossCovariance), n),
    n,
    surprises(state, seen),
  );
  const pull = blockTimes(
    { values: crossCovariance, columns: state.mean.length, firstRow: 0, offset: 0 },
    weights,
  );
  return state.mean.map((value, m) => value + pull[m]!);
}

/** The shared errors by all that was read. */
export interface SharedPosterior {
  /** Lower factor of their precision, errors x errors. */
  readonly factor: Float64Array;
  readonly mean: Float64Array;
}

/** A shared error without variance is none: a huge precision holds it at zero. */
const HELD = 1e18;

/** @param variances Of the first errors before anything was read; the others are left out. */
export function sharedPosterior(
  states: readonly BladeState[],
  variances: readonly number[],
): SharedPosterior {
  const count = variances.length;
  const precision = new Float64Array(count * count);
  const pull = new Float64Array(count);
  variances.forEach((variance, m) => (precision[m * count + m] = variance > 0 ? 1 / variance : HELD));
  for (const { size, mean, joint } of states) {
    const d = stateCount(size);
    const total = d + size.shared;
    for (let m = 0; m < count; m++) {
      pull[m]! += mean[d + m]!;
      for (let l = 0; l < count; l++) precision[m * count + l]! -= joint[(d + m) * total + d + l]!;
    }
  }
  const factor = cholesky(precision, count);
  return { factor, mean: solveCholesky(factor, count, pull) };
}

/** Covariance of the shared errors, row by row. */
export function sharedCovarianceOf({ factor, mean }: SharedPosterior): Float64Array {
  return inverseFromCholesky(factor, mean.length);
}

/** A blade after its last step: what it is by all readings, and how that moves with the shared errors. */
export function posteriorOf({ size, mean, joint }: BladeState, sharedMean: Float64Array): BladePosterior {
  const { shared } = size;
  const d = stateCount(size);
  const total = d + shared;
  const covariance = new Float64Array(d * d);
  const loadings = new Float64Array(d * shared);
  for (let i = 0; i < d; i++) {
    covariance.set(joint.subarray(i * total, i * total + d), i * d);
    loadings.set(joint.subarray(i * total + d, (i + 1) * total), i * shared);
  }
  const moved = multiply(loadings, shared, sharedMean);
  return { mean: moved.map((value, i) => value + mean[i]!), covariance, loadings };
}
