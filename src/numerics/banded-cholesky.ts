import { rowDot } from './cholesky.ts';

/**
 * Lower triangle of a symmetric matrix that is zero further than `reach` from its diagonal: entry (i, j) stands at
 * i * (reach + 1) + j - i + reach.
 */
export interface Banded {
  readonly n: number;
  readonly reach: number;
  readonly values: Float64Array;
}

/** The band of a matrix given row by row. @param a n x n; only its lower triangle is read. */
export function bandOf(a: Float64Array, n: number, reach: number): Banded {
  const width = reach + 1;
  const values = new Float64Array(n * width);
  for (let i = 0; i < n; i++) {
    const first = Math.max(0, i - reach);
    for (let j = first; j <= i; j++) values[i * width + j - i + reach] = a[i * n + j]!;
  }
  return { n, reach, values };
}

/**
 * Lower factor L of a positive definite banded matrix, A = L L'; it has the same band.
 *
 * @throws RangeError naming the first pivot that is not positive.
 */
export function bandedCholesky({ n, reach, values: a }: Banded): Banded {
  const width = reach + 1;
  const l = new Float64Array(n * width);
  for (let i = 0; i < n; i++) {
    const first = Math.max(0, i - reach);
    const rowI = i * width - i + reach;
    let j = first;
    // Two rows above at a time: they share what is fetched of this one.
    for (; j + 1 < i; j += 2) {
      const rowJ = j * width - j + reach;
      const next = rowJ + reach;
      let p = 0;
      let q = 0;
      for (let k = first; k < j; k++) {
        const x = l[rowI + k]!;
        p += x * l[rowJ + k]!;
        q += x * l[next + k]!;
      }
      const value = (a[rowI + j]! - p) / l[rowJ + j]!;
      l[rowI + j] = value;
      l[rowI + j + 1] = (a[rowI + j + 1]! - q - value * l[next + j]!) / l[next + j + 1]!;
    }
    for (; j <= i; j++) {
      const rowJ = j * width - j + reach;
      const sum = a[rowI + j]! - rowDot(l, rowI + first, l, rowJ + first, j - first);
      if (i !== j) l[rowI + j] = sum / l[rowJ + j]!;
      else if (sum > 0) l[rowI + i] = Math.sqrt(sum);
      else throw new RangeError(`a[${i}, ${i}]: must leave a positive pivot, got ${sum}`);
    }
  }
  return { n, reach, values: l };
}

/** Natural logarithm of the determinant of L L'. */
export function bandedLogDeterminant({ n, reach, values: l }: Banded): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.log(l[i * (reach + 1) + reach]!);
  return 2 * sum;
}

/** Solves L L' x = b. @returns A fresh array of n. */
export function bandedSolve({ n, reach, values: l }: Banded, b: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    const first = Math.max(0, i - reach);
    const row = i * (reach + 1) - i + reach;
    x[i] = (x[i]! - rowDot(l, row + first, x, first, i - first)) / l[row + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    const row = i * (reach + 1) - i + reach;
    const value = x[i]! / l[row + i]!;
    x[i] = value;
    for (let k = Math.max(0, i - reach); k < i; k++) x[k]! -= l[row + k]! * value;
  }
  return x;
}

/**
 * The entries of (L L')^-1 inside the band, which is all that a trace against a banded matrix needs.
 *
 * Source: Takahashi, Fagan & Chin 1973, from memory.
 */
export function bandOfInverse({ n, reach, values: l }: Banded): Banded {
  const width = reach + 1;
  const inverse = new Float64Array(n * n);
  const column = new Float64Array(reach);
  for (let i = n - 1; i >= 0; i--) {
    const below = Math.min(reach, n - 1 - i);
    const pivot = l[i * width + reach]!;
    for (let k = 0; k < below; k++) column[k] = l[(i + 1 + k) * width + reach - 1 - k]!;
    for (let j = i + 1; j <= i + below; j++) {
      const value = -rowDot(column, 0, inverse, j * n + i + 1, below) / pivot;
      inverse[j * n + i] = value;
      inverse[i * n + j] = value;
    }
    inverse[i * n + i] = (1 / pivot - rowDot(column, 0, inverse, i * n + i + 1, below)) / pivot;
  }
  return bandOf(inverse, n, reach);
}

/** tr(A B) of two symmetric matrices of the same shape, from the band that both have. */
export function bandedTrace({ n, reach, values: a }: Banded, { values: b }: Banded): number {
  let sum = 0;
  let diagonal = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  for (let i = 0; i < n; i++) {
    const at = i * (reach + 1) + reach;
    diagonal += a[at]! * b[at]!;
  }
  return 2 * sum - diagonal;
}
