/**
 * Distribution function of the standard normal, absolute error below 1.2e-7.
 *
 * Source: rational Chebyshev approximation of erfc, Numerical Recipes 6.2, from memory.
 */
export function standardNormalCdf(x: number): number {
  const z = Math.abs(x) / Math.SQRT2;
  const t = 1 / (1 + z / 2);
  const series =
    -1.26551223 +
    t *
      (1.00002368 +
        t *
          (0.37409196 +
            t *
              (0.09678418 +
                t *
                  (-0.18628806 +
                    t *
                      (0.27886807 +
                        t * (-1.13520398 + t * (1.48851587 + t * (-0.82215223 + t * 0.17087277))))))));
  const tail = (t * Math.exp(-z * z + series)) / 2;
  return x > 0 ? 1 - tail : tail;
}
