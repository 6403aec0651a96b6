import { normalQuantile } from './normal-distribution.ts';

/**
 * Interval for a proportion from a count, honest for few cases and near 0 and 1.
 *
 * Source: the score interval of Wilson 1927, doi 10.1080/01621459.1927.10502953.
 *
 * @param count 0 to `of`.
 * @param of How many there were, 1 or more.
 * @param coverage Probability in (0, 1).
 * @throws RangeError outside these ranges.
 */
export function proportionInterval(
  count: number,
  of: number,
  coverage = 0.95,
): { readonly share: number; readonly lower: number; readonly upper: number } {
  if (!(of >= 1)) throw new RangeError(`of: must be 1 or more, got ${of}`);
  if (!(count >= 0 && count <= of)) throw new RangeError(`count: must lie from 0 to ${of}, got ${count}`);
  const z = normalQuantile((1 + coverage) / 2);
  const share = count / of;
  const middle = (share + (z * z) / (2 * of)) / (1 + (z * z) / of);
  const half = (z / (1 + (z * z) / of)) * Math.sqrt((share * (1 - share)) / of + (z * z) / (4 * of * of));
  return { share, lower: Math.max(0, middle - half), upper: Math.min(1, middle + half) };
}
