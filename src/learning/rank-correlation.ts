import { normalQuantile, normalUpperTail } from '../numerics/normal-distribution.ts';
import { probabilityWithin } from '../numerics/student-quantile.ts';

/** Ranks from 1, equal values sharing their mean rank. */
export function ranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const result = new Array<number>(values.length);
  for (let first = 0; first < order.length;) {
    let next = first;
    while (next < order.length && values[order[next]!] === values[order[first]!]) next++;
    for (let k = first; k < next; k++) result[order[k]!] = (first + next + 1) / 2;
    first = next;
  }
  return result;
}

/**
 * Smallest rate of false findings at which each p-value would be called a finding.
 *
 * Source: Benjamini & Hochberg 1995.
 *
 * @param pValues Each from 0 to 1.
 * @returns Adjusted values in the order given.
 */
export function falseDiscoveryRates(pValues: readonly number[]): number[] {
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[b]! - pValues[a]!);
  const adjusted = new Array<number>(pValues.length);
  let least = 1;
  order.forEach((index, k) => {
    least = Math.min(least, (pValues[index]! * pValues.length) / (pValues.length - k));
    adjusted[index] = least;
  });
  return adjusted;
}

/** Values less their mean. */
export function centred(values: readonly number[]): number[] {
  const mean = values.reduce((total, value) => total + value, 0) / values.length;
  return values.map((value) => value - mean);
}

/** Sum of products. */
export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((total, value, i) => total + value * b[i]!, 0);
}

/**
 * Two-sided probability that a rank correlation so strong arises by chance, by an Edgeworth series in 1/n; where that fails,
 * far in the tail, by Student's distribution with n - 2 degrees of freedom. Ties are taken as if there were none.
 *
 * Source: Best & Roberts 1975, algorithm AS 89, doi 10.2307/2347111; coefficients from memory, checked against R.
 *
 * @param n Nine pairs or more: the series is no good for fewer.
 */
export function rankChance(rho: number, n: number): number {
  const size = Math.min(1, Math.abs(rho));
  if (size === 1) return 0;
  const student = 1 - probabilityWithin(size * Math.sqrt((n - 2) / (1 - size * size)), n - 2);
  return Math.min(1, Math.max(0, student, 2 * edgeworthTail(size, n)));
}

/** Probability that the sum of squared differences of ranks is at most that of a correlation of 0 or more. */
function edgeworthTail(size: number, n: number): number {
  const b = 1 / n;
  const squares = ((1 - size) * (n ** 3 - n)) / 6;
  const x = Math.abs((6 * (squares + 1) * b) / (n * n - 1) - 1) * Math.sqrt(n - 1);
  const y = x * x;
  const far = 0.0879 + 0.0151 * b - y * (0.0072 - 0.0831 * b + y * b * (0.0131 - 4.6e-4 * y));
  const near = 0.2274 + b * (0.2531 + 0.1745 * b) + y * (-0.0758 + b * (0.1033 + 0.3932 * b) - y * b * far);
  return (x * b * near) / Math.exp(y / 2) + normalUpperTail(x);
}

/**
 * Approximate interval of a rank correlation.
 *
 * Source: Fisher's transformation with the variance of Bonett & Wright 2000.
 *
 * @param coverage Probability in (0, 1).
 */
export function rankInterval(rho: number, n: number, coverage = 0.95): readonly [low: number, high: number] {
  const clipped = Math.max(-0.999999, Math.min(0.999999, rho));
  const half = normalQuantile((1 + coverage) / 2) * Math.sqrt((1 + (clipped * clipped) / 2) / (n - 3));
  return [Math.tanh(Math.atanh(clipped) - half), Math.tanh(Math.atanh(clipped) + half)];
}
