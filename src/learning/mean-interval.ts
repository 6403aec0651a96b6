import { studentCoverageFactor } from '../numerics/student-quantile.ts';

/** A mean over reeds with its doubt. */
export interface MeanInterval {
  readonly mean: number;
  readonly n: number;
  /** Standard error of the mean, from the scatter of the values. */
  readonly u: number;
  readonly interval: readonly [low: number, high: number];
}

/**
 * Mean of several values with a Student interval.
 *
 * @param values Two or more, finite.
 * @param coverage Probability in (0, 1); for `k` means looked at together give 1 - 0.05 / k.
 * @throws RangeError for fewer than two values.
 */
export function meanInterval(values: readonly number[], coverage = 0.95): MeanInterval {
  const n = values.length;
  if (n < 2) throw new RangeError(`values: must be at least 2, got ${n}`);
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const u = Math.sqrt(squares / (n - 1) / n);
  const half = studentCoverageFactor(coverage, n - 1) * u;
  return { mean, n, u, interval: [mean - half, mean + half] };
}
