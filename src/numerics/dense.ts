/** A B of two m x m matrices, row by row. */
export function squareProduct(a: Float64Array, b: Float64Array, m: number): Float64Array {
  const product = new Float64Array(m * m);
  for (let i = 0; i < m; i++)
    for (let k = 0; k < m; k++) {
      const weight = a[i * m + k]!;
      if (weight !== 0) for (let j = 0; j < m; j++) product[i * m + j]! += weight * b[k * m + j]!;
    }
  return product;
}

/** Adds v v' to an m x m matrix, in place. */
export function addOuter(target: Float64Array, v: Float64Array): void {
  const m = v.length;
  for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) target[i * m + j]! += v[i]! * v[j]!;
}

/** Adds `factor` times the source, in place. */
export function addTimes(target: Float64Array, source: Float64Array, factor: number): void {
  for (let k = 0; k < target.length; k++) target[k]! += factor * source[k]!;
}
