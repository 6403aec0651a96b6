/** a' b. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** M a for a row-by-row matrix with `columns` columns. */
export function multiply(m: ArrayLike<number>, columns: number, a: ArrayLike<number>): Float64Array {
  const rows = m.length / columns;
  const result = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    let sum = 0;
    for (let j = 0; j < columns; j++) sum += m[i * columns + j]! * a[j]!;
    result[i] = sum;
  }
  return result;
}

/** M a for a symmetric row-by-row matrix; rows where a is zero cost nothing. */
export function symmetricTimes(m: Float64Array, a: Float64Array): Float64Array {
  const n = a.length;
  const product = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const value = a[i]!;
    if (value === 0) continue;
    const row = i * n;
    for (let j = 0; j < n; j++) product[j]! += value * m[row + j]!;
  }
  return product;
}

/** Adds M'a to a target, for a row-by-row matrix with as many columns as the target is long; rows where a is zero cost nothing. */
export function addTransposedTimes(target: Float64Array, m: Float64Array, a: Float64Array): void {
  const columns = target.length;
  for (let i = 0; i < a.length; i++) {
    const value = a[i]!;
    if (value === 0) continue;
    for (let j = 0; j < columns; j++) target[j]! += value * m[i * columns + j]!;
  }
}

/** Where a vector is not zero, rising. */
export function supportOf(a: Float64Array): Int32Array {
  const support = new Int32Array(a.length);
  let count = 0;
  for (let i = 0; i < a.length; i++) if (a[i] !== 0) support[count++] = i;
  return support.subarray(0, count);
}

/**
 * a' M a for a symmetric row-by-row matrix, from its lower half.
 *
 * @param support Where a is not zero: other rows and columns cost nothing.
 */
export function quadratic(a: Float64Array, m: Float64Array, support = supportOf(a)): number {
  const n = a.length;
  let sum = 0;
  for (let k = 0; k < support.length; k++) {
    const i = support[k]!;
    const row = i * n;
    let below = 0;
    for (let l = 0; l < k; l++) {
      const j = support[l]!;
      below += m[row + j]! * a[j]!;
    }
    sum += a[i]! * (2 * below + a[i]! * m[row + i]!);
  }
  return sum;
}
