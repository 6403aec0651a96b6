import { cholesky, inverseFromCholesky } from '../numerics/cholesky.ts';
import { leaveOneOut } from '../numerics/leave-one-out.ts';
import { multiply } from '../numerics/quadratic-form.ts';
import type { Expected } from './with-shared.ts';

/** So many readings sit badly on the gauge, and scatter so many times as far as others. Common practice, no source. */
const BAD = { share: 0.01, times: 6 };
const SWEEPS = 3;
/** Weights that move by less than this have settled. */
const SETTLED = 0.02;

/**
 * Variances of readings whose noise has heavy tails: one that the others do not lead to expect counts for little. Only
 * this pass and those before it are asked, so that weights stay what they are when more passes come.
 *
 * Source: expectation propagation, Rasmussen & Williams 2006, section 3.6, from memory; means are matched alone.
 *
 * @param own The readings' variances if all are good, mm2.
 * @param expected The readings, the removal opened.
 * @returns mm2, no less than their own.
 */
export function heavyTailed(own: Float64Array, expected: Expected): Float64Array {
  const n = own.length;
  const covariance = expected.covariance.slice();
  let variances = own;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const inverse = inverseFromCholesky(cholesky(covariance, n), n);
    const wider = leaveOneOut(inverse, multiply(inverse, n, expected.surprise)).map(({ off, u }, i) =>
      asGoodOrBad(off, u * u - variances[i]!, own[i]!),
    );
    if (wider.every((variance, i) => Math.abs(variance - variances[i]!) <= SETTLED * variances[i]!)) break;
    wider.forEach((variance, i) => (covariance[i * n + i]! += variance - variances[i]!));
    variances = Float64Array.from(wider);
  }
  return variances;
}

/**
 * The variance that moves what is read as far as a reading does which may be good or bad.
 *
 * @param off What the reading differs by from what the others lead to expect, mm.
 * @param expected Variance of what they lead to expect.
 * @param own The reading's variance if it is good.
 */
export function asGoodOrBad(off: number, expected: number, own: number): number {
  const [good, bad] = [expected + own, expected + BAD.times ** 2 * own];
  const odds = Math.log(1 / BAD.share - 1) + 0.5 * (Math.log(bad / good) - off ** 2 * (1 / good - 1 / bad));
  // A reading that is likelier good than before it was looked at counts in full.
  const isBad = Math.max(0, (1 / (1 + Math.exp(odds)) - BAD.share) / (1 - BAD.share));
  if (isBad === 0) return own;
  // Of how much of the difference cane makes up in either case, the mean: expected / (expected + variance).
  return 1 / ((1 - isBad) / good + isBad / bad) - expected;
}
