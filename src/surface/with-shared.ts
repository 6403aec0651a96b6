import { dot } from '../numerics/quadratic-form.ts';
import { rowGram, whiten } from '../numerics/whitening.ts';
import {
  readingsCovariance,
  stateCount,
  surprises,
  type BladeState,
  type SeenReadings,
  type SharedPosterior,
} from './blade-state.ts';

/** Readings as the state and the shared errors lead to expect them, before they are read. */
export interface Expected {
  /** n x n, mm2; lower triangle. */
  readonly covariance: Float64Array;
  /** What they differ by, n numbers, mm. */
  readonly surprise: Float64Array;
}

/** @param crossCovariance [H P, H G + E]. */
export function expectedWithShared(
  state: BladeState,
  seen: SeenReadings,
  crossCovariance: Float64Array,
  shared: SharedPosterior,
): Expected {
  return {
    covariance: covarianceWithShared(state, seen, crossCovariance, shared),
    surprise: surprisesWithShared(state, seen, crossCovariance, shared),
  };
}

function covarianceWithShared(
  { size }: BladeState,
  seen: SeenReadings,
  crossCovariance: Float64Array,
  { factor }: SharedPosterior,
): Float64Array {
  const n = seen.rows.count;
  const { errors } = seen;
  const [d, columns] = [stateCount(size), stateCount(size) + errors];
  const covariance = readingsCovariance(seen, crossCovariance);
  // L^-1 of the shared errors' precision times how each reading moves with them, transposed: its squares are their doubt.
  const moves = new Float64Array(errors * n);
  for (let m = 0; m < errors; m++)
    for (let i = 0; i < n; i++) moves[m * n + i] = crossCovariance[i * columns + d + m]!;
  whiten(factor, errors, { values: moves, columns: n, firstRow: 0, offset: 0 });
  const byReading = new Float64Array(n * errors);
  for (let m = 0; m < errors; m++) for (let i = 0; i < n; i++) byReading[i * errors + m] = moves[m * n + i]!;
  rowGram(byReading, n, errors).forEach((value, k) => (covariance[k]! += value));
  return covariance;
}

function surprisesWithShared(
  state: BladeState,
  seen: SeenReadings,
  crossCovariance: Float64Array,
  { mean }: SharedPosterior,
): Float64Array {
  const d = stateCount(state.size);
  const columns = d + seen.errors;
  return surprises(state, seen).map(
    (value, i) => value - dot(mean, crossCovariance.subarray(i * columns + d, (i + 1) * columns)),
  );
}
