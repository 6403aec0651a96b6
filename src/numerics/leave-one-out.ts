/** A value beside what all others lead to expect of it. */
export interface LeftOutValue {
  /** The value less what was expected. */
  readonly off: number;
  /** Its standard deviation. */
  readonly u: number;
}

/**
 * Each of n values as all others lead to expect it.
 *
 * Source: leave-one-out residuals of a Gaussian process, Rasmussen & Williams 2006, eq. 5.12, from memory.
 *
 * @param inverse Of the values' covariance, n x n, row by row.
 * @param pull The inverse times what the values lie off their means, n numbers.
 */
export function leaveOneOut(inverse: Float64Array, pull: Float64Array): LeftOutValue[] {
  const n = pull.length;
  return Array.from(pull, (value, i) => {
    const precision = inverse[i * n + i]!;
    return { off: value / precision, u: 1 / Math.sqrt(precision) };
  });
}
