/** Weights of a few among many coefficients: `weight[k]` belongs to coefficient `index[k]`. */
export interface SparseWeights {
  readonly index: readonly number[];
  readonly weight: readonly number[];
}

/** What is not zero among dense weights; sets them to zero, so that they can be filled again. */
export function takeSparse(dense: Float64Array): SparseWeights {
  const index: number[] = [];
  const weight: number[] = [];
  for (let i = 0; i < dense.length; i++) {
    if (dense[i] === 0) continue;
    index.push(i);
    weight.push(dense[i]!);
    dense[i] = 0;
  }
  return { index, weight };
}

/** One row less another; nothing where they are the same. */
export function difference(row: SparseWeights, other: SparseWeights): SparseWeights {
  if (row === other) return { index: [], weight: [] };
  return {
    index: [...row.index, ...other.index],
    weight: [...row.weight, ...other.weight.map((value) => -value)],
  };
}

/** a' x, for x that stands from `offset` on; in four sums that do not wait for each other. */
export function sparseDot({ index, weight }: SparseWeights, x: Float64Array, offset = 0): number {
  let p = 0;
  let q = 0;
  let r = 0;
  let s = 0;
  let k = 0;
  for (; k + 3 < index.length; k += 4) {
    p += weight[k]! * x[offset + index[k]!]!;
    q += weight[k + 1]! * x[offset + index[k + 1]!]!;
    r += weight[k + 2]! * x[offset + index[k + 2]!]!;
    s += weight[k + 3]! * x[offset + index[k + 3]!]!;
  }
  for (; k < index.length; k++) p += weight[k]! * x[offset + index[k]!]!;
  return p + q + (r + s);
}

/** Adds `factor` times sparse weights to dense ones that stand from `offset` on. */
export function addSparse(
  target: Float64Array,
  { index, weight }: SparseWeights,
  factor: number,
  offset = 0,
): void {
  for (let k = 0; k < index.length; k++) target[offset + index[k]!]! += factor * weight[k]!;
}

/** a' M b for a row-by-row matrix with n columns. */
export function sparseBilinear(a: SparseWeights, m: Float64Array, n: number, b: SparseWeights): number {
  let sum = 0;
  for (let k = 0; k < a.index.length; k++) sum += a.weight[k]! * sparseDot(b, m, a.index[k]! * n);
  return sum;
}

/** a' M for a row-by-row matrix with `columns` columns. */
export function sparseTimes(
  { index, weight }: SparseWeights,
  m: Float64Array,
  columns: number,
): Float64Array {
  const product = new Float64Array(columns);
  for (let k = 0; k < index.length; k++) {
    const from = index[k]! * columns;
    for (let j = 0; j < columns; j++) product[j]! += weight[k]! * m[from + j]!;
  }
  return product;
}
