const Z = 1.959964;

/**
 * A share with its 95 % score interval.
 *
 * Source: Wilson 1927, doi 10.1080/01621459.1927.10502953.
 */
export function wilson(hits, count) {
  const share = hits / count;
  const z2 = (Z * Z) / count;
  const middle = (share + z2 / 2) / (1 + z2);
  const half = (Z / (1 + z2)) * Math.sqrt((share * (1 - share)) / count + z2 / (4 * count));
  return { share, lower: middle - half, upper: middle + half };
}
