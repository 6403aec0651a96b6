/** Rows of numbers: the first begins at `at`, each `stride` after the one before. */
export interface Rows {
  readonly values: Float64Array;
  readonly at: number;
  readonly count: number;
  readonly stride: number;
}

/** Rows from `first` to before `end` of a matrix with so many columns, row by row. */
export const rowsOf = (values: Float64Array, columns: number, first: number, end: number): Rows => ({
  ...{ values, at: first * columns, count: end - first, stride: columns },
});

/** Factors, row by row or column by column: that of row a and column b stands at `at` + a `row` + b `column`. */
export interface Factors {
  readonly values: Float64Array;
  readonly at: number;
  readonly row: number;
  readonly column: number;
  readonly sign: 1 | -1;
}

/**
 * Adds A M to the first `columns` numbers of some rows, in place. Takes four rows by four of M at a time, so that each
 * number is fetched less often.
 *
 * @param a As many rows as the target, and as many columns as M has rows.
 */
export function addProduct(target: Rows, a: Factors, m: Rows, columns: number): void {
  const tile = new Float64Array(16);
  for (let i = 0; i < target.count; i += 4) {
    for (let k = 0; k < m.count; k += 4) {
      fillTile(tile, a, i, target.count, k, m.count);
      addTile(target, i, tile, m, k, columns);
    }
  }
}

/** Sixteen factors; beyond the last row and column 0 stands for what is not there. */
function fillTile(
  tile: Float64Array,
  { values, at, row, column, sign }: Factors,
  i: number,
  rows: number,
  k: number,
  columns: number,
): void {
  tile.fill(0);
  const [height, width] = [Math.min(4, rows - i), Math.min(4, columns - k)];
  for (let p = 0; p < height; p++)
    for (let q = 0; q < width; q++) tile[4 * p + q] = sign * values[at + (i + p) * row + (k + q) * column]!;
}

function addTile(target: Rows, i: number, tile: Float64Array, m: Rows, k: number, columns: number): void {
  const [t, v] = [target.values, m.values];
  // A row that is not there stands for the last one, and gives it nothing.
  const ta = startOf(target, i);
  const tb = startOf(target, i + 1);
  const tc = startOf(target, i + 2);
  const td = startOf(target, i + 3);
  const mp = startOf(m, k);
  const mq = startOf(m, k + 1);
  const mr = startOf(m, k + 2);
  const ms = startOf(m, k + 3);
  const ap = tile[0]!;
  const aq = tile[1]!;
  const ar = tile[2]!;
  const as = tile[3]!;
  const bp = tile[4]!;
  const bq = tile[5]!;
  const br = tile[6]!;
  const bs = tile[7]!;
  const cp = tile[8]!;
  const cq = tile[9]!;
  const cr = tile[10]!;
  const cs = tile[11]!;
  const dp = tile[12]!;
  const dq = tile[13]!;
  const dr = tile[14]!;
  const ds = tile[15]!;
  for (let j = 0; j < columns; j++) {
    const p = v[mp + j]!;
    const q = v[mq + j]!;
    const r = v[mr + j]!;
    const s = v[ms + j]!;
    t[ta + j]! += ap * p + aq * q + (ar * r + as * s);
    t[tb + j]! += bp * p + bq * q + (br * r + bs * s);
    t[tc + j]! += cp * p + cq * q + (cr * r + cs * s);
    t[td + j]! += dp * p + dq * q + (dr * r + ds * s);
  }
}

function startOf({ at, count, stride }: Rows, row: number): number {
  return at + Math.min(row, count - 1) * stride;
}
