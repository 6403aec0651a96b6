import { rowProducts, solveUpperRows } from '../numerics/row-products.ts';
import { addRow, addTransposedTimesRows } from '../numerics/sparse-rows.ts';
import { stateCount, type StateSize, type Step } from './blade-state.ts';
import type { BladePosterior } from './reed-model.ts';
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
  /** (P Lambda, Xi', lambda'): d + M + 1 rows of d. */
  readonly adjoint: Float64Array;
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
    adjoint: new Float64Array((d + size.shared + 1) * d),
  };
  const firstOpened = steps.findIndex(({ removal }) => removal);
  for (let step = steps.length - 1; step >= 0; step--) {
    const { mean, covariance, loadings } = standing;
    const posterior = { mean: mean.slice(), covariance: covariance.slice(), loadings: loadings.slice() };
    const { removal } = steps[step]!;
    if (step > 0) takeBack(standing, steps[step]!);
    const taken = removal ? close(standing, (x) => spread.times(removal, x)) : undefined;
    if (step === firstOpened) forgetRounding(standing);
    yield { step, posterior, ...(taken && { taken }) };
  }
}

/** Goes back before a step's readings were taken in. */
function takeBack({ size, told, adjoint }: Standing, { rows, factor, white, errors, surprise }: Step): void {
  const n = rows.count;
  if (n === 0) return;
  const d = stateCount(size);
  const columns = d + errors;
  const w = { values: white, rows: n, columns: d, stride: columns };
  const known = rowProducts({ values: told, rows: d, columns: d, stride: d }, w);
  const left = rowProducts({ values: adjoint, rows: adjoint.length / d, columns: d, stride: d }, w);
  for (let p = 0; p < left.length / n; p++)
    for (let i = 0; i < n; i++) left[p * n + i] = whiteAt(p, i) - left[p * n + i]!;
  solveUpperRows(factor, n, left);
  for (let p = 0; p < left.length / n; p++)
    for (let i = 0; i < n; i++) addRow(adjoint, rows, i, left[p * n + i]!, p * d);
  tell(told, d, { rows, factor, w, known });

  /** [W, X, w]', with nothing for errors that no reading shared yet. */
  function whiteAt(p: number, i: number): number {
    if (p < columns) return white[i * columns + p]!;
    return p === d + size.shared ? surprise[i]! : 0;
  }
}

/** Lambda before a step: less H'T + T'H, T = L^-T (Y - Z L^-1 H / 2), Y = W Lambda, Z = I + Y W'. */
function tell(
  told: Float64Array,
  d: number,
  {
    rows,
    factor,
    w,
    known,
  }: Pick<Step, 'rows' | 'factor'> & { w: Parameters<typeof rowProducts>[0]; known: Float64Array },
): void {
  const n = rows.count;
  const middle = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const from = i * w.stride;
    for (let p = 0; p < d; p++) {
      const share = w.values[from + p]!;
      for (let j = 0; j < n; j++) middle[i * n + j]! += share * known[p * n + j]!;
    }
    middle[i * n + i]! += 1;
  }
  // L^-T Z L^-1: by rows, and by rows of what is transposed.
  solveUpperRows(factor, n, middle);
  const turned = transposed(middle, n, n);
  solveUpperRows(factor, n, turned);
  solveUpperRows(factor, n, known);
  addTransposedTimesRows(
    known,
    rows,
    turned.map((value) => -0.5 * value),
    n,
  );
  const half = new Float64Array(d * d);
  for (let p = 0; p < d; p++) for (let i = 0; i < n; i++) addRow(half, rows, i, known[p * n + i]!, p * d);
  for (let p = 0; p < d; p++)
    for (let q = 0; q < d; q++) told[p * d + q]! -= half[p * d + q]! + half[q * d + p]!;
}

function transposed(m: Float64Array, rows: number, columns: number): Float64Array {
  const turned = new Float64Array(m.length);
  for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) turned[j * rows + i] = m[i * columns + j]!;
  return turned;
}

/** Goes back before a removal opened. @returns What it took. */
function close(
  { size, sharedMean, mean, covariance, loadings, told, adjoint }: Standing,
  times: (x: Float64Array) => Float64Array,
): BladePosterior {
  const { base, removal, shared } = size;
  const d = base + removal;
  const of = (m: Float64Array, row: number) => m.subarray(row * d + base, (row + 1) * d);
  const pulled = of(adjoint, d + shared).slice();
  const taken = {
    mean: new Float64Array(d),
    covariance: new Float64Array(d * d),
    loadings: new Float64Array(d * shared),
  };
  for (let m = 0; m < shared; m++) {
    const row = of(adjoint, d + m);
    row.forEach((value, j) => (pulled[j]! -= value * sharedMean[m]!));
    times(row).forEach((value, j) => {
      loadings[(base + j) * shared + m]! += value;
      taken.loadings[(base + j) * shared + m] = value;
    });
  }
  times(pulled).forEach((value, j) => {
    mean[base + j]! -= value;
    taken.mean[base + j] = -value;
  });
  for (let p = 0; p < d; p++)
    times(of(adjoint, p)).forEach((value, j) => {
      covariance[p * d + base + j]! += value;
      covariance[(base + j) * d + p]! += value;
    });
  const toldTimes = Array.from({ length: d }, (_, p) => times(of(told, p)));
  toldTimes.forEach((row, p) => row.forEach((value, j) => (adjoint[(base + j) * d + p]! -= value)));
  const one = new Float64Array(removal);
  for (let r = 0; r < removal; r++) {
    one.fill(0);
    one[r] = 1;
    const narrowing = times(Float64Array.from({ length: removal }, (_, s) => toldTimes[base + s]![r]!));
    times(one).forEach((value, j) => {
      const at = (base + r) * d + base + j;
      taken.covariance[at] = value - narrowing[j]!;
      covariance[at]! -= value + narrowing[j]!;
    });
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
