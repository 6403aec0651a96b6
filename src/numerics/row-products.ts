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

/** Solves L'x = b for each row b of n numbers, in place. */
export function solveUpperRows(l: Float64Array, n: number, rows: Float64Array): void {
  for (let from = 0; from < rows.length; from += n) {
    for (let i = n - 1; i >= 0; i--) {
      const x = rows[from + i]! / l[i * n + i]!;
      rows[from + i] = x;
      for (let k = 0; k < i; k++) rows[from + k]! -= l[i * n + k]! * x;
    }
  }
}
