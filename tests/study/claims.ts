import { seededRandom } from '../../src/numerics/seeded-random.ts';
import { claimsUnderShuffles } from './shuffled-claims.ts';
import { inventedReeds } from './invented-reeds.ts';

const SIZES = [12, 16, 24, 40, 80, 150, 300];
const MOST = 0.05;

/** How often something is said of libraries of several sizes in which outcomes are shuffled. */
export function studyClaims(shuffles: number, seed: number): { lines: string[]; isWithin: boolean } {
  const reeds = inventedReeds(seed, Math.max(...SIZES));
  const rows = SIZES.map((size) => ({
    size,
    ...claimsUnderShuffles(reeds.slice(-size), shuffles, seededRandom(seed + size)),
  }));
  const percent = (rate: number) => `${(100 * rate).toFixed(1)} %`;
  return {
    lines: rows.map(
      ({ size, withClaim, compared, upper }) =>
        `${size} reeds, ${compared} comparisons: something said in ${withClaim} of ${shuffles} shuffles, ${percent(withClaim / shuffles)}, upper 95 % limit ${percent(upper)}`,
    ),
    isWithin: rows.every(({ upper }) => upper <= MOST),
  };
}
