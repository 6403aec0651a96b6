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

/** a' M b for a square row-by-row matrix; rows where a is zero cost nothing. */
export function bilinear(a: ArrayLike<number>, m: ArrayLike<number>, b: ArrayLike<number>): number {
  const n = a.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const ai = a[i]!;
    if (ai === 0) continue;
    let row = 0;
    for (let j = 0; j < n; j++) row += m[i * n + j]! * b[j]!;
    sum += ai * row;
  }
  return sum;
}

/** a' M a for a symmetric row-by-row matrix, from its lower half; rows and columns where a is zero cost nothing. */
export function quadratic(a: Float64Array, m: Float64Array): number {
  const n = a.length;
  const support = new Int32Array(n);
  let count = 0;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const ai = a[i]!;
    if (ai === 0) continue;
    const row = i * n;
    let below = 0;
    for (let k = 0; k < count; k++) {
      const j = support[k]!;
      below += m[row + j]! * a[j]!;
    }
    sum += ai * (2 * below + ai * m[row + i]!);
    support[count++] = i;
  }
  return sum;
}
