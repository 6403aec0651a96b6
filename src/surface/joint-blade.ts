import { cholesky, inverseFromCholesky, solveCholesky } from '../numerics/cholesky.ts';
import { baseRow, type BasePrior, type BaseSpace } from './base-surface.ts';
import type { CaneReading } from './blade-data.ts';
import { FIRST_REMOVAL_SD_MM, removalRow, widenedVariances, type RemovalSpace } from './removal-space.ts';
import { SHARED_PER_PASS, sharedEffects } from './shared-errors.ts';
import { addRow, coefficientCount, type SparseRow } from './tensor-basis.ts';

/**
 * One blade over all its passes: a base surface less what each later pass took off. The coefficients stand one block
 * after the other: base first, then one block for each pass in `removalPasses`.
 */
export interface BladeLayout {
  readonly base: BaseSpace;
  readonly removal: RemovalSpace;
  /** Passes that read this blade, but for the first: each has a block for what it took off. */
  readonly removalPasses: readonly number[];
  readonly baseCount: number;
  readonly removalCount: number;
  readonly count: number;
}

export function bladeLayout(
  base: BaseSpace,
  removal: RemovalSpace,
  passesRead: readonly number[],
): BladeLayout {
  const baseCount = coefficientCount(base.basis);
  const removalCount = coefficientCount(removal);
  const removalPasses = passesRead.slice(1);
  return {
    base,
    removal,
    removalPasses,
    baseCount,
    removalCount,
    count: baseCount + removalPasses.length * removalCount,
  };
}

/** What is fitted: readings with the variance of their noise and the slope of the surface at their places. */
export interface NoisyReading extends CaneReading {
  readonly variance: number;
  readonly slopeAlong: number;
}

/** What the readings say of one blade, apart from the errors that it shares with the other. */
export interface BladeEvidence {
  readonly layout: BladeLayout;
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  /** count x shared errors. */
  readonly loadings: Float64Array;
  /** X' K^-1 X and X' K^-1 r: what this blade says of the shared errors. */
  readonly sharedPrecision: Float64Array;
  readonly sharedPull: Float64Array;
}

/** Rounds in which removal widens its own prior. */
const ROUNDS = 3;

interface Rows {
  readonly base: readonly SparseRow[];
  readonly removal: readonly SparseRow[];
}

/**
 * Posterior of one blade by the readings' own covariance (as in kriging), so that the cost goes with the readings and
 * not with the coefficients.
 *
 * @param shared Prior variances of the shared errors, three for each pass.
 */
export function fitBlade(
  layout: BladeLayout,
  prior: BasePrior,
  readings: readonly NoisyReading[],
  shared: Float64Array,
): BladeEvidence {
  const rows = {
    base: readings.map(({ zMm, reading }) => baseRow(layout.base, zMm, reading.across)),
    removal: readings.map(({ zMm, reading }) => removalRow(layout.removal, zMm, reading.across)),
  };
  const effects = effectMatrix(readings, shared.length);
  const still = baseCovariance(rows, prior, readings);
  const deviation = Float64Array.from(readings, ({ reading }) => reading.thicknessMm - prior.meanMm);
  const variances = chooseVariances(layout, rows, readings, still, effects, shared, deviation);
  const k = withRemoval(layout, rows, readings, still, variances);
  return finish(layout, prior, rows, readings, k, variances, effects, shared, deviation);
}

/** n x s: how each reading moves with each shared error. */
function effectMatrix(readings: readonly NoisyReading[], sharedCount: number): Float64Array {
  const effects = new Float64Array(readings.length * sharedCount);
  readings.forEach(({ reading, pass, slopeAlong }, i) => {
    effects.set(sharedEffects(reading.thicknessMm, slopeAlong), i * sharedCount + SHARED_PER_PASS * pass);
  });
  return effects;
}

/** Rows times the base prior's covariance, n x baseCount. */
function throughPrior(rows: readonly SparseRow[], prior: BasePrior, baseCount: number): Float64Array {
  const result = new Float64Array(rows.length * baseCount);
  rows.forEach(({ index, weight }, i) => {
    const to = i * baseCount;
    for (let k = 0; k < index.length; k++) {
      const from = index[k]! * baseCount;
      const factor = weight[k]!;
      for (let j = 0; j < baseCount; j++) result[to + j]! += factor * prior.covariance[from + j]!;
    }
  });
  return result;
}

function sparseDot({ index, weight }: SparseRow, dense: Float64Array, offset: number): number {
  let sum = 0;
  for (let k = 0; k < index.length; k++) sum += weight[k]! * dense[offset + index[k]!]!;
  return sum;
}

/** Covariance of the readings from base surface and noise; lower triangle filled. */
function baseCovariance(rows: Rows, prior: BasePrior, readings: readonly NoisyReading[]): Float64Array {
  const n = readings.length;
  const baseCount = Math.sqrt(prior.covariance.length);
  const through = throughPrior(rows.base, prior, baseCount);
  const k = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) k[i * n + j] = sparseDot(rows.base[j]!, through, i * baseCount);
    k[i * n + i]! += readings[i]!.variance;
  }
  return k;
}

/** Adds what the passes took off: a pass touches every reading of its own and of later passes. */
function withRemoval(
  layout: BladeLayout,
  rows: Rows,
  readings: readonly NoisyReading[],
  still: Float64Array,
  variances: readonly Float64Array[],
): Float64Array {
  const n = readings.length;
  const k = still.slice();
  const scaled = new Float64Array(layout.removalCount);
  layout.removalPasses.forEach((pass, block) => {
    const spread = variances[block]!;
    for (let i = 0; i < n; i++) {
      if (readings[i]!.pass < pass) continue;
      scaled.fill(0);
      const { index, weight } = rows.removal[i]!;
      for (let m = 0; m < index.length; m++) scaled[index[m]!] = weight[m]! * spread[index[m]!]!;
      for (let j = 0; j <= i; j++) {
        if (readings[j]!.pass >= pass) k[i * n + j]! += sparseDot(rows.removal[j]!, scaled, 0);
      }
    }
  });
  return k;
}

function withShared(k: Float64Array, effects: Float64Array, shared: Float64Array, n: number): Float64Array {
  const s = shared.length;
  const result = k.slice();
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let m = 0; m < s; m++) sum += effects[i * s + m]! * shared[m]! * effects[j * s + m]!;
      result[i * n + j]! += sum;
    }
  }
  return result;
}

/** Prior variances of the removals: narrow at first, widened where the readings show that cane went. */
function chooseVariances(
  layout: BladeLayout,
  rows: Rows,
  readings: readonly NoisyReading[],
  still: Float64Array,
  effects: Float64Array,
  shared: Float64Array,
  deviation: Float64Array,
): Float64Array[] {
  const n = readings.length;
  let variances: Float64Array[] = layout.removalPasses.map(() =>
    new Float64Array(layout.removalCount).fill(FIRST_REMOVAL_SD_MM ** 2),
  );
  if (variances.length === 0) return variances;
  for (let round = 0; round < ROUNDS; round++) {
    const k = withShared(withRemoval(layout, rows, readings, still, variances), effects, shared, n);
    const factor = cholesky(k, n);
    const alpha = solveCholesky(factor, n, deviation);
    const inverse = inverseFromCholesky(factor, n);
    variances = layout.removalPasses.map((pass, block) => {
      const spread = variances[block]!;
      const { pull, information } = removalEvidence(layout, rows, readings, pass, alpha, inverse);
      const mean = spread.map((variance, m) => variance * pull[m]!);
      const left = spread.map((variance, m) => Math.max(0, variance - variance * variance * information[m]!));
      return widenedVariances(layout.removal, mean, left);
    });
  }
  return variances;
}

/** Per removal coefficient of a pass: G' alpha, and the diagonal of G' K^-1 G. */
function removalEvidence(
  layout: BladeLayout,
  rows: Rows,
  readings: readonly NoisyReading[],
  pass: number,
  alpha: Float64Array,
  inverse: Float64Array,
) {
  const n = readings.length;
  const touching: { i: number; weight: number }[][] = Array.from({ length: layout.removalCount }, () => []);
  readings.forEach((reading, i) => {
    if (reading.pass < pass) return;
    const { index, weight } = rows.removal[i]!;
    for (let m = 0; m < index.length; m++) touching[index[m]!]!.push({ i, weight: -weight[m]! });
  });
  const pull = Float64Array.from(touching, (list) =>
    list.reduce((sum, { i, weight }) => sum + weight * alpha[i]!, 0),
  );
  const information = Float64Array.from(touching, (list) => {
    let sum = 0;
    for (const a of list) for (const b of list) sum += a.weight * b.weight * inverse[a.i * n + b.i]!;
    return sum;
  });
  return { pull, information };
}

/** Prior covariance of theta with the readings, n x count, row by row. */
function crossCovariance(
  layout: BladeLayout,
  prior: BasePrior,
  rows: Rows,
  readings: readonly NoisyReading[],
  variances: readonly Float64Array[],
): Float64Array {
  const { baseCount, removalCount, count } = layout;
  const through = throughPrior(rows.base, prior, baseCount);
  const cross = new Float64Array(readings.length * count);
  readings.forEach(({ pass }, i) => {
    cross.set(through.subarray(i * baseCount, (i + 1) * baseCount), i * count);
    layout.removalPasses.forEach((removalPass, block) => {
      if (pass < removalPass) return;
      const { index, weight } = rows.removal[i]!;
      const to = i * count + baseCount + block * removalCount;
      for (let m = 0; m < index.length; m++)
        cross[to + index[m]!] = -weight[m]! * variances[block]![index[m]!]!;
    });
  });
  return cross;
}

function finish(
  layout: BladeLayout,
  prior: BasePrior,
  rows: Rows,
  readings: readonly NoisyReading[],
  k: Float64Array,
  variances: readonly Float64Array[],
  effects: Float64Array,
  shared: Float64Array,
  deviation: Float64Array,
): BladeEvidence {
  const n = readings.length;
  const s = shared.length;
  const { count, baseCount } = layout;
  const factor = cholesky(k, n);
  const cross = crossCovariance(layout, prior, rows, readings, variances);
  const whitenedCross = whiten(factor, n, cross, count);
  const whitenedEffects = whiten(factor, n, effects, s);
  const whitenedDeviation = whiten(factor, n, deviation, 1);
  const mean = transposeTimes(whitenedCross, count, whitenedDeviation, 1, n);
  for (let m = 0; m < baseCount; m++) mean[m]! += prior.meanMm;
  const covariance = priorCovariance(layout, prior, variances);
  subtractGram(covariance, whitenedCross, count, n);
  const loadings = transposeTimes(whitenedCross, count, whitenedEffects, s, n).map((value) => -value);
  return {
    layout,
    mean,
    covariance,
    loadings,
    sharedPrecision: transposeTimes(whitenedEffects, s, whitenedEffects, s, n),
    sharedPull: transposeTimes(whitenedEffects, s, whitenedDeviation, 1, n),
  };
}

/** L^-1 M for M with n rows. */
function whiten(factor: Float64Array, n: number, m: Float64Array, columns: number): Float64Array {
  const result = m.slice();
  for (let i = 0; i < n; i++) {
    const to = i * columns;
    for (let k = 0; k < i; k++) {
      const lik = factor[i * n + k]!;
      const from = k * columns;
      for (let j = 0; j < columns; j++) result[to + j]! -= lik * result[from + j]!;
    }
    const pivot = factor[i * n + i]!;
    for (let j = 0; j < columns; j++) result[to + j]! /= pivot;
  }
  return result;
}

/** A' B for matrices of n rows. */
function transposeTimes(a: Float64Array, ca: number, b: Float64Array, cb: number, n: number): Float64Array {
  const result = new Float64Array(ca * cb);
  for (let i = 0; i < n; i++) {
    for (let p = 0; p < ca; p++) {
      const value = a[i * ca + p]!;
      if (value === 0) continue;
      for (let q = 0; q < cb; q++) result[p * cb + q]! += value * b[i * cb + q]!;
    }
  }
  return result;
}

function priorCovariance(
  layout: BladeLayout,
  prior: BasePrior,
  variances: readonly Float64Array[],
): Float64Array {
  const { count, baseCount, removalCount } = layout;
  const covariance = new Float64Array(count * count);
  for (let i = 0; i < baseCount; i++) {
    covariance.set(prior.covariance.subarray(i * baseCount, (i + 1) * baseCount), i * count);
  }
  variances.forEach((spread, block) => {
    const offset = baseCount + block * removalCount;
    spread.forEach((variance, m) => (covariance[(offset + m) * count + offset + m] = variance));
  });
  return covariance;
}

/** C - W'W for W with n rows, symmetric to the bit. */
function subtractGram(c: Float64Array, w: Float64Array, count: number, n: number): void {
  for (let i = 0; i < n; i++) {
    const row = i * count;
    for (let p = 0; p < count; p++) {
      const value = w[row + p]!;
      if (value === 0) continue;
      const to = p * count;
      for (let q = 0; q <= p; q++) c[to + q]! -= value * w[row + q]!;
    }
  }
  for (let p = 0; p < count; p++) for (let q = 0; q < p; q++) c[q * count + p] = c[p * count + q]!;
}

/** Adds `factor` times the weights of a place's thickness after a pass, or of its derivative by z or u. */
export function addLayoutWeights(
  target: Float64Array,
  layout: BladeLayout,
  pass: number,
  zMm: number,
  u: number,
  derivative: { readonly dz: number; readonly du: number },
  factor: number,
): void {
  const { dz, du } = derivative;
  addRow(target, baseRow(layout.base, zMm, u, dz, du), factor);
  const removal = removalRow(layout.removal, zMm, u, dz, du);
  layout.removalPasses.forEach((removalPass, block) => {
    if (removalPass <= pass) addRow(target, removal, -factor, layout.baseCount + block * layout.removalCount);
  });
}
