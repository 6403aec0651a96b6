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

const TABLE_TO = 8.5;
const PER_SD = 32;
let table: { readonly below: Float64Array; readonly density: Float64Array } | undefined;

function madeTable() {
  const at = (k: number) => k / PER_SD - TABLE_TO;
  const length = 2 * TABLE_TO * PER_SD + 2;
  return {
    below: Float64Array.from({ length }, (_, k) => normalUpperTail(-at(k))),
    density: Float64Array.from({ length }, (_, k) => normalDensity(at(k))),
  };
}

/**
 * Probability that a standard normal value lies below x, to 1e-8: for likelihoods that ask for it a hundred thousand
 * times. Cubics between the places of a table, with its density as their slope.
 */
export function quickNormalCdf(x: number): number {
  if (x <= -TABLE_TO) return 0;
  if (x >= TABLE_TO) return 1;
  const { below, density } = (table ??= madeTable());
  const place = (x + TABLE_TO) * PER_SD;
  const k = Math.floor(place);
  const t = place - k;
  const from = below[k]!;
  const step = below[k + 1]! - from;
  const rise = density[k]! / PER_SD - step;
  const fall = density[k + 1]! / PER_SD - step;
  return from + t * step + t * (1 - t) * ((1 - t) * rise - t * fall);
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
