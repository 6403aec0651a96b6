/** Where the continued fraction takes over from the series. */
const SERIES_END = 2.5;

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/**
 * Probability that a standard normal value exceeds z, with full relative precision far into the upper tail.
 *
 * Source: series 26.2.11 and continued fraction 26.2.14 of Abramowitz & Stegun, from memory.
 */
export function normalUpperTail(z: number): number {
  if (z < -SERIES_END) return 1 - normalUpperTail(-z);
  return z > SERIES_END ? normalDensity(z) * millsRatio(z) : 0.5 - normalDensity(z) * oddSeries(z);
}

/**
 * Natural logarithm of the probability that a standard normal value falls between two bounds, precise in both tails.
 *
 * @param from Less than `to`; either may be infinite.
 */
export function logNormalInterval(from: number, to: number): number {
  if (from + to < 0) return logNormalInterval(-to, -from);
  if (from < SERIES_END) return Math.log(normalUpperTail(from) - normalUpperTail(to));
  const far = to === Infinity ? 0 : Math.exp(0.5 * (from - to) * (from + to)) * millsRatio(to);
  return -0.5 * (from * from + Math.log(2 * Math.PI)) + Math.log(millsRatio(from) - far);
}

/** Value that a standard normal one exceeds with probability 1 - p, for p in [0.5, 1). */
export function normalQuantile(p: number): number {
  let z = 0;
  for (let iteration = 0; iteration < 60; iteration++) {
    const step = (p - 1 + normalUpperTail(z)) / normalDensity(z);
    z += step;
    if (Math.abs(step) <= 1e-15 * (1 + z)) break;
  }
  return z;
}

/**
 * Probability that a standard normal value lies below z, to 1.2e-7: for likelihoods that ask for it a hundred thousand
 * times.
 *
 * Source: rational Chebyshev approximation of erfc, Numerical Recipes 6.2, from memory.
 */
export function quickNormalCdf(x: number): number {
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

/** Upper tail over density, z > 2. */
function millsRatio(z: number): number {
  let fraction = z;
  for (let k = 60; k > 0; k--) fraction = z + k / fraction;
  return 1 / fraction;
}

/** z + z^3 / 3 + z^5 / 15 + ... */
function oddSeries(z: number): number {
  let term = z;
  let sum = z;
  for (let k = 1; Math.abs(term) > 1e-17 * Math.abs(sum); k++) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return sum;
}
