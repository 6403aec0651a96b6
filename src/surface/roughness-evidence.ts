import { cholesky, logDeterminant } from '../numerics/cholesky.ts';
import { newtonMinimum } from '../numerics/minimise.ts';
import { dot, multiply } from '../numerics/quadratic-form.ts';
import type { SparseWeights } from '../numerics/sparse-row.ts';
import {
  blockTimes,
  columnSquares,
  rowGram,
  whiten,
  whitenedVector,
  type ColumnBlock,
} from '../numerics/whitening.ts';
import type { BaseSpace } from './base-surface.ts';
import { penaltyPrecisions, priorVariances, tensorEigenvectors } from './roughness-penalty.ts';
import { coefficientCount, type TensorBasis } from './tensor-basis.ts';

/** Thickness that is expected before anything is read. Common practice, no source. */
export const PRIOR_MEAN_MM = 0.3;

/**
 * Logarithms of the two roughness precisions (1/mm2) that invented and common blades need, and how far a reed may
 * leave them. Found on blades with a known truth; the evidence of a full map outweighs them.
 */
export const USUAL_LOGS = [6, 1.6] as const;
const USUAL_LOGS_SD = 2;
const LOG_BOUND = 16;
const GRADIENT_TOLERANCE = 1e-2;

/** One reading for the choice of the prior: its design row, its value, and the variance of its noise. */
export interface BaseReading {
  readonly row: SparseWeights;
  readonly valueMm: number;
  readonly variance: number;
}

/** Logarithms of the roughness precisions along and across, and how little the readings believe them. */
export interface Roughness {
  readonly logPrecisions: readonly [number, number];
  /** Negative log evidence: lower is likelier, also between spaces. */
  readonly cost: number;
}

/**
 * The roughness that the readings make likeliest (restricted maximum likelihood with known noise, and a weak
 * preference where few readings leave it open). Works in the eigenbasis of the penalties, so that one evaluation costs
 * no more than a Cholesky factor of the readings' covariance.
 *
 * Source: Wood 2011, doi 10.1111/j.1467-9868.2010.00749.x, for the likelihood.
 *
 * @param start Where the search begins, such as what a similar space or noise made likeliest.
 */
export function chooseRoughness(
  { basis }: BaseSpace,
  readings: readonly BaseReading[],
  start: Roughness['logPrecisions'] = USUAL_LOGS,
): Roughness {
  const n = coefficientCount(basis);
  const rotated = rotate(readings, tensorEigenvectors(basis), n);
  const evidence = (logs: readonly [number, number]) => negativeEvidence(basis, readings, rotated, logs);
  const { x, value } = newtonMinimum(evidence, start, LOG_BOUND, GRADIENT_TOLERANCE);
  return { logPrecisions: x, cost: value };
}

function rotate(readings: readonly BaseReading[], vectors: Float64Array, n: number): ColumnBlock {
  const values = new Float64Array(readings.length * n);
  readings.forEach(({ row: { index, weight } }, i) => {
    for (let k = 0; k < index.length; k++) {
      const from = index[k]! * n;
      for (let m = 0; m < n; m++) values[i * n + m]! += weight[k]! * vectors[from + m]!;
    }
  });
  return { values, columns: n, firstRow: 0, offset: 0 };
}

function negativeEvidence(
  basis: TensorBasis,
  readings: readonly BaseReading[],
  rotated: ColumnBlock,
  logs: readonly [number, number],
) {
  const size = readings.length;
  const n = rotated.columns;
  const { a, b } = penaltyPrecisions(basis, logs);
  const spread = priorVariances(basis, logs);
  const sds = spread.map(Math.sqrt);
  const scaled = new Float64Array(size * n);
  for (let i = 0; i < size; i++)
    for (let m = 0; m < n; m++) scaled[i * n + m] = rotated.values[i * n + m]! * sds[m]!;
  const k = rowGram(scaled, size, n);
  for (let i = 0; i < size; i++) k[i * size + i]! += readings[i]!.variance;
  const factor = cholesky(k, size);
  const white = whitenedVector(
    factor,
    size,
    readings.map(({ valueMm }) => valueMm - PRIOR_MEAN_MM),
  );
  const rows = { ...rotated, values: scaled };
  whiten(factor, size, rows);
  const { slopes, curvature } = evidenceSlopes(rows, white, spread, a, b);
  const away = logs.map((log, i) => (log - USUAL_LOGS[i]!) / USUAL_LOGS_SD);
  const weight = 1 / USUAL_LOGS_SD ** 2;
  return {
    value: (dot(white, white) + logDeterminant(factor, size) + dot(away, away)) / 2,
    gradient: [slopes[0] + away[0]! / USUAL_LOGS_SD, slopes[1] + away[1]! / USUAL_LOGS_SD] as const,
    curvature: [curvature[0] + weight, curvature[1], curvature[2] + weight] as const,
  };
}

/**
 * Derivatives of (r' K^-1 r + ln|K|) / 2 by the two log precisions, from the whitened rows, in units of the prior's
 * standard deviations, and deviation; and the average of its observed and expected second derivatives.
 *
 * Source: Gilmour, Thompson & Cullis 1995, doi 10.2307/2533274, for the average information, from memory.
 */
function evidenceSlopes(
  rows: ColumnBlock,
  white: Float64Array,
  spread: Float64Array,
  a: readonly number[],
  b: readonly number[],
) {
  const pull = blockTimes(rows, white);
  const information = columnSquares(rows);
  const [byAlong, byAcross] = [new Float64Array(spread.length), new Float64Array(spread.length)];
  const slopes: [number, number] = [0, 0];
  for (let m = 0; m < spread.length; m++) {
    const along = spread[m]! * a[Math.floor(m / b.length)]!;
    const across = spread[m]! * b[m % b.length]!;
    const change = pull[m]! * pull[m]! - information[m]!;
    slopes[0] += (change * along) / 2;
    slopes[1] += (change * across) / 2;
    byAlong[m] = along * pull[m]!;
    byAcross[m] = across * pull[m]!;
  }
  const along = multiply(rows.values, spread.length, byAlong);
  const across = multiply(rows.values, spread.length, byAcross);
  return {
    slopes,
    curvature: [dot(along, along) / 2, dot(along, across) / 2, dot(across, across) / 2] as const,
  };
}
