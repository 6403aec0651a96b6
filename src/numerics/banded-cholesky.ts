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
 * Turns a positive definite banded matrix into its lower factor L, A = L L', in place: it has the same band.
 *
 * @throws RangeError naming the first pivot that is not positive.
 */
export function bandedCholesky({ n, reach, values: l }: Banded): Banded {
  const width = reach + 1;
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
      const value = (l[rowI + j]! - p) / l[rowJ + j]!;
      l[rowI + j] = value;
      l[rowI + j + 1] = (l[rowI + j + 1]! - q - value * l[next + j]!) / l[next + j + 1]!;
    }
    for (; j <= i; j++) {
      const rowJ = j * width - j + reach;
      const sum = l[rowI + j]! - rowDot(l, rowI + first, l, rowJ + first, j - first);
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
 * Entries of (L L')^-1 up to a distance from the diagonal: all of them, or those inside the band, which is all that a
 * trace against a banded matrix needs.
 *
 * Source: Takahashi, Fagan & Chin 1973, from memory.
 *
 * @param distance The reach or more.
 * @param inverse Taken for the result; entries further from the diagonal stay as they are.
 * @returns n x n, row by row, symmetric to the bit.
 */
export function bandedInverse(
  { n, reach, values: l }: Banded,
  distance = n - 1,
  inverse = new Float64Array(n * n),
): Float64Array {
  const width = reach + 1;
  const column = new Float64Array(reach);
  for (let i = n - 1; i >= 0; i--) {
    const below = Math.min(reach, n - 1 - i);
    const pivot = l[i * width + reach]!;
    for (let k = 0; k < below; k++) column[k] = l[(i + 1 + k) * width + reach - 1 - k]!;
    const last = Math.min(distance, n - 1 - i);
    for (let j = i + 1; j <= i + last; j++) {
      const value = -rowDot(column, 0, inverse, j * n + i + 1, below) / pivot;
      inverse[j * n + i] = value;
      inverse[i * n + j] = value;
    }
    inverse[i * n + i] = (1 / pivot - rowDot(column, 0, inverse, i * n + i + 1, below)) / pivot;
  }
  return inverse;
}

/** tr(A B) of a symmetric matrix, row by row, of which only the band is read, and a banded one. */
export function bandedTrace(a: Float64Array, { n, reach, values: b }: Banded): number {
  let off = 0;
  let diagonal = 0;
  for (let i = 0; i < n; i++) {
    const row = i * (reach + 1) - i + reach;
    for (let j = Math.max(0, i - reach); j < i; j++) off += a[i * n + j]! * b[row + j]!;
    diagonal += a[i * n + i]! * b[row + i]!;
  }
  return 2 * off + diagonal;
}
