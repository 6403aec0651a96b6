/** Row-by-row numbers of which the first `columns` of each `stride` count. */
export interface RowBlock {
  readonly values: Float64Array;
  readonly rows: number;
  readonly columns: number;
  readonly stride: number;
}

/**
 * A B' of two blocks with as many columns: a's rows x b's rows. Takes two rows by two at a time, so that each number is
 * fetched less often.
 */
export function rowProducts(a: RowBlock, b: RowBlock): Float64Array {
  const product = new Float64Array(a.rows * b.rows);
  const { columns } = a;
  const [va, vb] = [a.values, b.values];
  for (let i = 0; i < a.rows; i += 2) {
    const row = i * a.stride;
    // An odd last row stands for its missing neighbour: what it would give is the same number again.
    const next = Math.min(i + 1, a.rows - 1) * a.stride;
    for (let j = 0; j < b.rows; j += 2) {
      const p = j * b.stride;
      const q = Math.min(j + 1, b.rows - 1) * b.stride;
      let rowP = 0;
      let rowQ = 0;
      let nextP = 0;
      let nextQ = 0;
      for (let k = 0; k < columns; k++) {
        const x = va[row + k]!;
        const y = va[next + k]!;
        const u = vb[p + k]!;
        const v = vb[q + k]!;
        rowP += x * u;
        rowQ += x * v;
        nextP += y * u;
        nextQ += y * v;
      }
      const to = i * b.rows + j;
      product[to] = rowP;
      if (j + 1 < b.rows) product[to + 1] = rowQ;
      if (i + 1 < a.rows) product[to + b.rows] = nextP;
      if (i + 1 < a.rows && j + 1 < b.rows) product[to + b.rows + 1] = nextQ;
    }
  }
  return product;
}

/**
 * A M: a's rows x `columns`. Takes two rows of A and four of M at a time, so that each number is fetched less often.
 *
 * @param m As many rows as a has columns, row by row.
 */
export function timesMatrix(
  { values, rows, columns: inner, stride }: RowBlock,
  m: Float64Array,
): Float64Array {
  const columns = m.length / inner;
  const product = new Float64Array(rows * columns);
  for (let i = 0; i < rows; i += 2) {
    // An odd last row stands for its missing neighbour, and gives it nothing.
    const share = i + 1 < rows ? 1 : 0;
    const [row, next] = [i * stride, (i + share) * stride];
    const [to, below] = [i * columns, (i + share) * columns];
    for (let k = 0; k < inner; k += 4) {
      // Beyond the last column a weight of 0 stands for what is not there.
      const weight = (from: number, at: number) => (at < inner ? values[from + at]! : 0);
      const row0 = weight(row, k);
      const row1 = weight(row, k + 1);
      const row2 = weight(row, k + 2);
      const row3 = weight(row, k + 3);
      const next0 = share * weight(next, k);
      const next1 = share * weight(next, k + 1);
      const next2 = share * weight(next, k + 2);
      const next3 = share * weight(next, k + 3);
      const p = k * columns;
      const q = Math.min(k + 1, inner - 1) * columns;
      const r = Math.min(k + 2, inner - 1) * columns;
      const s = Math.min(k + 3, inner - 1) * columns;
      for (let j = 0; j < columns; j++) {
        const mp = m[p + j]!;
        const mq = m[q + j]!;
        const mr = m[r + j]!;
        const ms = m[s + j]!;
        product[to + j]! += row0 * mp + row1 * mq + (row2 * mr + row3 * ms);
        product[below + j]! += next0 * mp + next1 * mq + (next2 * mr + next3 * ms);
      }
    }
  }
  return product;
}

/** Turns n rows of `columns` numbers M into L'^-1 M, in place. Takes four rows at a time. */
export function solveUpper(l: Float64Array, n: number, m: Float64Array, columns: number): void {
  for (let i = n - 1; i >= 0; i--) {
    const to = i * columns;
    let k = i + 1;
    for (; k + 3 < n; k += 4) {
      const a = l[k * n + i]!;
      const b = l[(k + 1) * n + i]!;
      const c = l[(k + 2) * n + i]!;
      const d = l[(k + 3) * n + i]!;
      const p = k * columns;
      const q = p + columns;
      const r = q + columns;
      const s = r + columns;
      for (let j = 0; j < columns; j++)
        m[to + j]! -= a * m[p + j]! + b * m[q + j]! + (c * m[r + j]! + d * m[s + j]!);
    }
    for (; k < n; k++) for (let j = 0; j < columns; j++) m[to + j]! -= l[k * n + i]! * m[k * columns + j]!;
    const pivot = l[i * n + i]!;
    for (let j = 0; j < columns; j++) m[to + j]! /= pivot;
  }
}

/** M' of `columns` columns. */
export function transposed(m: Float64Array, columns: number): Float64Array {
  const rows = m.length / columns;
  const turned = new Float64Array(m.length);
  for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) turned[j * rows + i] = m[i * columns + j]!;
  return turned;
}
