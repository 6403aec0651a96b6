/** Nodes on [0, 1] and weights that sum to 1, exact for polynomials up to degree 2n - 1. */
export interface Quadrature {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/**
 * Gauss-Legendre rule with n nodes on [0, 1].
 *
 * Source: Newton's method on the Legendre recurrence; Abramowitz & Stegun 25.4.29, from memory.
 */
export function gaussLegendre(n: number): Quadrature {
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let k = 0; k < n; k++) {
    let x = -Math.cos((Math.PI * (k + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let iteration = 0; iteration < 20; iteration++) {
      let [previous, value] = [1, x];
      for (let j = 2; j <= n; j++)
        [previous, value] = [value, ((2 * j - 1) * x * value - (j - 1) * previous) / j];
      slope = (n * (x * value - previous)) / (x * x - 1);
      x -= value / slope;
    }
    nodes.push((x + 1) / 2);
    weights.push(1 / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}
