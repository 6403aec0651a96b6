/**
 * Lower factor L of a symmetric positive definite matrix, A = L L'. Takes two rows by two at a time, so that each number
 * is fetched less often.
 *
 * @param a n x n, row by row; only its lower triangle is read.
 * @returns n x n, row by row, upper triangle zero.
 * @throws RangeError naming the first pivot that is not positive.
 */
export function cholesky(a: Float64Array, n: number): Float64Array {
  const l = new Float64Array(n * n);
  let i = 0;
  for (; i + 1 < n; i += 2) {
    const [row, next] = [i * n, (i + 1) * n];
    // i is even, and so is every j: no column is left over.
    for (let j = 0; j < i; j += 2) {
      const [p, q] = [j * n, (j + 1) * n];
      let rowP = 0;
      let rowQ = 0;
      let nextP = 0;
      let nextQ = 0;
      for (let k = 0; k < j; k++) {
        const x = l[row + k]!;
        const y = l[next + k]!;
        const u = l[p + k]!;
        const v = l[q + k]!;
        rowP += x * u;
        rowQ += x * v;
        nextP += y * u;
        nextQ += y * v;
      }
      const x = (a[row + j]! - rowP) / l[p + j]!;
      const y = (a[next + j]! - nextP) / l[p + j]!;
      l[row + j] = x;
      l[next + j] = y;
      l[row + j + 1] = (a[row + j + 1]! - (rowQ + x * l[q + j]!)) / l[q + j + 1]!;
      l[next + j + 1] = (a[next + j + 1]! - (nextQ + y * l[q + j]!)) / l[q + j + 1]!;
    }
    l[row + i] = rootOfPivot(a[row + i]! - rowDot(l, row, l, row, i), i);
    l[next + i] = (a[next + i]! - rowDot(l, next, l, row, i)) / l[row + i]!;
    l[next + i + 1] = rootOfPivot(a[next + i + 1]! - rowDot(l, next, l, next, i + 1), i + 1);
  }
  if (i < n) {
    const row = i * n;
    for (let j = 0; j < i; j++) l[row + j] = (a[row + j]! - rowDot(l, row, l, j * n, j)) / l[j * n + j]!;
    l[row + i] = rootOfPivot(a[row + i]! - rowDot(l, row, l, row, i), i);
  }
  return l;
}

function rootOfPivot(pivot: number, i: number): number {
  if (!(pivot > 0)) throw new RangeError(`a[${i}, ${i}]: must leave a positive pivot, got ${pivot}`);
  return Math.sqrt(pivot);
}

/** Sum of a[atA + k] b[atB + k] for k below `length`, in four sums that do not wait for each other. */
export function rowDot(a: Float64Array, atA: number, b: Float64Array, atB: number, length: number): number {
  let p = 0;
  let q = 0;
  let r = 0;
  let s = 0;
  let k = 0;
  for (; k + 3 < length; k += 4) {
    p += a[atA + k]! * b[atB + k]!;
    q += a[atA + k + 1]! * b[atB + k + 1]!;
    r += a[atA + k + 2]! * b[atB + k + 2]!;
    s += a[atA + k + 3]! * b[atB + k + 3]!;
  }
  for (; k < length; k++) p += a[atA + k]! * b[atB + k]!;
  return p + q + (r + s);
}

/** Natural logarithm of the determinant of L L'. */
export function logDeterminant(l: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.log(l[i * n + i]!);
  return 2 * sum;
}

/** Solves L x = b. @returns A fresh array of n. */
export function solveLower(l: Float64Array, n: number, b: ArrayLike<number>): Float64Array {
  const x = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= l[i * n + k]! * x[k]!;
    x[i] = sum / l[i * n + i]!;
  }
  return x;
}

/** Solves L L' x = b. @returns A fresh array of n. */
export function solveCholesky(l: Float64Array, n: number, b: ArrayLike<number>): Float64Array {
  const x = solveLower(l, n, b);
  for (let i = n - 1; i >= 0; i--) {
    x[i]! /= l[i * n + i]!;
    const xi = x[i]!;
    for (let k = 0; k < i; k++) x[k]! -= l[i * n + k]! * xi;
  }
  return x;
}

/** Inverse of L L', n x n, row by row, symmetric to the bit. */
export function inverseFromCholesky(l: Float64Array, n: number): Float64Array {
  const m = inverseLower(l, n);
  const inverse = new Float64Array(n * n);
  for (let k = 0; k < n; k++) {
    const row = k * n;
    for (let i = 0; i <= k; i++) {
      const mi = m[row + i]!;
      if (mi === 0) continue;
      const out = i * n;
      for (let j = 0; j <= i; j++) inverse[out + j]! += mi * m[row + j]!;
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) inverse[j * n + i] = inverse[i * n + j]!;
  return inverse;
}

function inverseLower(l: Float64Array, n: number): Float64Array {
  const m = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let k = 0; k < i; k++) {
      const lik = l[row + k]!;
      if (lik === 0) continue;
      const from = k * n;
      for (let j = 0; j <= k; j++) m[row + j]! -= lik * m[from + j]!;
    }
    const pivot = l[row + i]!;
    for (let j = 0; j < i; j++) m[row + j]! /= pivot;
    m[row + i] = 1 / pivot;
  }
  return m;
}
