import { dot } from '../numerics/quadratic-form.ts';
import { solveUpper, timesMatrix, transposed, type RowBlock } from '../numerics/row-products.ts';
import { addRow, addTransposedTimesRows } from '../numerics/sparse-rows.ts';
import { stateCount, type StateSize, type Step } from './blade-state.ts';
import type { BladePosterior } from './reed-model.ts';
import type { RemovalSpread } from './removal-space.ts';
import type { BladeHistory } from './through-passes.ts';

/**
 * One blade after a step by all readings, those of later steps too, and what these said: the adjoint of the sweep.
 *
 * Source: Bryson & Frazier's smoother, from memory; that covariances move back without being inverted follows from its
 * C = P - P Lambda P and P_(k-1) = P - Q.
 */
export interface LookedBack {
  readonly step: number;
  readonly posterior: BladePosterior;
  /** What went before this step's readings, in the coefficients of a surface: none of the base, and of what has gone less. */
  readonly taken?: BladePosterior;
}

/** Where the way back stands, after a step. */
interface Standing {
  readonly size: StateSize;
  readonly sharedMean: Float64Array;
  /** d, d x d and d x M. */
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  readonly loadings: Float64Array;
  /** Lambda, d x d. */
  readonly told: Float64Array;
  /** [Lambda P, Xi, lambda]: d rows of d + M + 1. */
  readonly adjoint: Float64Array;
  /** Room for what each step takes off Lambda, d x d: each would else take as much anew. */
  readonly room: Float64Array;
}

/**
 * From the last step to the first, each by all readings. Each costs the same.
 *
 * @param last After the last step.
 */
export function* wayBack(
  { size, steps, spread }: BladeHistory,
  last: BladePosterior,
  sharedMean: Float64Array,
): Generator<LookedBack, void> {
  const d = stateCount(size);
  const standing: Standing = {
    size,
    sharedMean,
    mean: last.mean.slice(),
    covariance: last.covariance.slice(),
    loadings: last.loadings.slice(),
    told: new Float64Array(d * d),
    adjoint: new Float64Array(d * (d + size.shared + 1)),
    room: new Float64Array(d * d),
  };
  const firstOpened = steps.findIndex(({ removal }) => removal);
  for (let step = steps.length - 1; step >= 0; step--) {
    const { mean, covariance, loadings } = standing;
    const posterior = { mean: mean.slice(), covariance: covariance.slice(), loadings: loadings.slice() };
    const { removal } = steps[step]!;
    if (step > 0) takeBack(standing, steps[step]!);
    const taken = removal ? close(standing, removal, spread) : undefined;
    if (step === firstOpened) forgetRounding(standing);
    yield { step, posterior, ...(taken && { taken }) };
  }
}

/**
 * Goes back before a step's readings were taken in: [Lambda P, Xi, lambda] grows by H'L^-T ([W, X, w] - W [Lambda P, Xi,
 * lambda]). That S H'D^-1 would be the first of it costs less and is not stable: rounding grows from step to step.
 */
function takeBack({ size, told, adjoint, room }: Standing, step: Step): void {
  const { rows, factor, white, errors, surprise } = step;
  const n = rows.count;
  if (n === 0) return;
  const d = stateCount(size);
  const w = { values: white, rows: n, columns: d, stride: d + errors };
  const columns = d + size.shared + 1;
  const left = timesMatrix(w, adjoint);
  for (let i = 0; i < n; i++) {
    const to = i * columns;
    // No reading shared the other errors yet.
    for (let p = 0; p < columns - 1; p++)
      left[to + p] = (p < w.stride ? white[i * w.stride + p]! : 0) - left[to + p]!;
    left[to + columns - 1] = surprise[i]! - left[to + columns - 1]!;
  }
  solveUpper(factor, n, left, columns);
  tell(told, step, w, room);
  addTransposedTimesRows(adjoint, rows, left, columns);
}

/** Lambda before a step: less H'T + T'H, T = L^-T (Y - Z L^-1 H / 2), Y = W Lambda, Z = I + Y W'. */
function tell(told: Float64Array, { rows, factor }: Step, w: RowBlock, half: Float64Array): void {
  const n = rows.count;
  const d = w.columns;
  const known = timesMatrix(w, told);
  const turnedW = transposed(w.values, w.stride).subarray(0, d * n);
  const middle = timesMatrix({ values: known, rows: n, columns: d, stride: d }, turnedW);
  for (let i = 0; i < n; i++) middle[i * n + i]! += 1;
  // L^-T Z L^-1: by columns, and by columns of what is transposed.
  solveUpper(factor, n, middle, n);
  const turned = transposed(middle, n);
  solveUpper(factor, n, turned, n);
  solveUpper(factor, n, known, d);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) addRow(known, rows, j, -0.5 * turned[i * n + j]!, i * d);
  half.fill(0);
  addTransposedTimesRows(half, rows, known, d);
  subtractWithTransposed(told, half, d);
}

/** A less B and B', in place, square by square: columns are then as near as rows. */
function subtractWithTransposed(a: Float64Array, b: Float64Array, n: number): void {
  for (let top = 0; top < n; top += SQUARE)
    for (let left = 0; left < n; left += SQUARE)
      for (let i = top; i < Math.min(top + SQUARE, n); i++)
        for (let j = left; j < Math.min(left + SQUARE, n); j++)
          a[i * n + j]! -= b[i * n + j]! + b[j * n + i]!;
}

const SQUARE = 16;

/** Goes back before a removal opened, with a prior covariance Q. @returns What it took. */
function close(standing: Standing, removal: Float64Array, spread: RemovalSpread): BladePosterior {
  const { size, sharedMean, mean, covariance, loadings, told, adjoint } = standing;
  const { base, shared } = size;
  const r = size.removal;
  const d = base + r;
  const columns = d + shared + 1;
  const taken = {
    mean: new Float64Array(d),
    covariance: new Float64Array(d * d),
    loadings: new Float64Array(d * shared),
  };
  const pulled = spread.times(removal, adjoint.subarray(base * columns), columns);
  const gone = spread.times(removal, told.subarray(base * d), d);
  for (let j = 0; j < r; j++) {
    const row = pulled.subarray(j * columns, (j + 1) * columns);
    const went = row[columns - 1]! - dot(sharedMean, row.subarray(d, d + shared));
    mean[base + j]! -= went;
    taken.mean[base + j] = -went;
    for (let m = 0, at = (base + j) * shared; m < shared; m++, at++) {
      loadings[at]! += row[d + m]!;
      taken.loadings[at] = row[d + m]!;
    }
    for (let p = 0; p < d; p++) adjoint[p * columns + base + j]! -= gone[j * d + p]!;
  }
  // Q Lambda Q, and Q itself.
  const ownGone = new Float64Array(r * r);
  for (let j = 0; j < r; j++) for (let q = 0; q < r; q++) ownGone[q * r + j] = gone[j * d + base + q]!;
  const narrowing = spread.times(removal, ownGone, r);
  const prior = spread.full(removal);
  for (let j = 0; j < r; j++) {
    const row = (base + j) * d;
    for (let p = 0; p < base; p++)
      covariance[p * d + base + j] = covariance[row + p]! += pulled[j * columns + p]!;
    for (let q = 0; q < r; q++) {
      const [own, by] = [prior[j * r + q]!, narrowing[j * r + q]!];
      taken.covariance[row + base + q] = own - by;
      covariance[row + base + q]! +=
        pulled[j * columns + base + q]! + pulled[q * columns + base + j]! - own - by;
    }
  }
  return taken;
}

/** At the first step nothing has gone, exactly. */
function forgetRounding({ size: { base, removal, shared }, mean, covariance, loadings }: Standing): void {
  const d = base + removal;
  mean.fill(0, base);
  loadings.fill(0, base * shared);
  covariance.fill(0, base * d);
  for (let p = 0; p < base; p++) covariance.fill(0, p * d + base, (p + 1) * d);
}
