import { normalQuantile } from './normal-distribution.ts';

/** Above this many degrees of freedom the distribution is normal to better than 1e-7. */
const NEARLY_NORMAL = 1e6;

/**
 * Factor k such that a Student t value stays within +-k with a given probability.
 *
 * Source: the finite sums 26.7.3 and 26.7.4 of Abramowitz & Stegun, from memory, inverted by Newton's method, which
 * climbs to the answer from zero because the probability is concave in k.
 *
 * @param coverage Probability in (0, 1), for example 0.95.
 * @param dof Degrees of freedom, whole and 1 or more; Infinity for the normal distribution.
 * @throws RangeError outside these ranges.
 */
export function studentCoverageFactor(coverage: number, dof: number): number {
  if (!(coverage > 0 && coverage < 1)) throw new RangeError(`coverage: must be in (0, 1), got ${coverage}`);
  if (dof > NEARLY_NORMAL) return normalQuantile((1 + coverage) / 2);
  if (!(Number.isInteger(dof) && dof >= 1))
    throw new RangeError(`dof: must be whole and 1 or more, got ${dof}`);
  const height = 2 * densityAtZero(dof);
  let k = 0;
  for (let iteration = 0; iteration < 100; iteration++) {
    const density = height * (1 + (k * k) / dof) ** (-(dof + 1) / 2);
    const step = (coverage - probabilityWithin(k, dof)) / density;
    k += step;
    if (Math.abs(step) <= 1e-14 * k) break;
  }
  return k;
}

/** Probability that a Student t value lies within +-k. Source: as above. */
export function probabilityWithin(k: number, dof: number): number {
  const angle = Math.atan(k / Math.sqrt(dof));
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const odd = dof % 2 === 1;
  let term = odd ? cos : 1;
  let sum = dof > 1 ? term : 0;
  for (let j = odd ? 3 : 2; j <= dof - 2; j += 2) {
    term *= ((j - 1) / j) * cos * cos;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + sin * sum) : sin * sum;
}

function densityAtZero(dof: number): number {
  let density = dof % 2 === 1 ? 1 / Math.PI : 1 / Math.sqrt(8);
  for (let v = dof % 2 === 1 ? 1 : 2; v < dof; v += 2) density *= ((v + 1) / v) * Math.sqrt(v / (v + 2));
  return density;
}
