import { climb } from './climb.ts';
import { keyOf, searchOf, type Cane, type Explanation, type JudgedPass, type Noise } from './explanation.ts';
import type { OffsetSuspicion } from './suspicion.ts';

/** How large an offset is, mm or a proportion, with its standard uncertainty. */
export interface Amount {
  readonly amount: number;
  readonly u: number;
}

/**
 * What hides in the amount, one standard deviation: the lengths of two passes, and how the ridge runs between its rows; of
 * a drift, what was scraped in the order in which it was read.
 * Found on generated reeds of four families.
 */
const HIDDEN = { shifted: 0.08, swelling: 0, zero: 0, drift: 0.004 };
/**
 * Steps to either side are lengthened until the likelihood, whatever else is unsure, falls by this much: about a standard
 * deviation each.
 */
const FALL = 0.5;
const FIRST_STEP = 0.02;
const LENGTHENED = 1.6;
const MOST_LENGTHENED = 10;
const STEPS = [-4, -3, -2, -1, 1, 2, 3, 4];

/**
 * The mean of an offset and its standard deviation, by the likelihood of the pass over its amount, all other offsets at
 * their likeliest: the top alone lies on one side where the readings leave a range of amounts nearly as likely.
 */
export function amountEstimate(
  pass: JudgedPass,
  cane: Cane,
  noise: Noise,
  { suspicions, amounts }: Explanation,
  suspicion: OffsetSuspicion,
): Amount {
  const { axes, score } = searchOf(pass, cane, noise, suspicions);
  const likeliest = Float64Array.from(axes, (axis) => amounts.get(keyOf(axis))! / axis.sd);
  const own = axes.findIndex((axis) => keyOf(axis) === keyOf(suspicion));
  const [top, { sd }] = [likeliest[own]!, axes[own]!];
  const rest = likeliest.filter((_, i) => i !== own);
  const whole = (others: Float64Array, x: number) =>
    Float64Array.from(axes, (_, i) => (i === own ? x : others[i < own ? i : i - 1]!));
  const scoreAt = (x: number) => climb((others) => score(whole(others, x)), rest).value;
  const highest = score(likeliest);
  let step = FIRST_STEP;
  for (let at = 0; at < MOST_LENGTHENED && fallOver(step) < FALL; at++) step *= LENGTHENED;
  const chances = STEPS.map((k) => ({ k, chance: Math.exp(scoreAt(top + k * step) - highest) }));
  const total = chances.reduce((sum, { chance }) => sum + chance, 1);
  const mean = chances.reduce((sum, { k, chance }) => sum + k * chance, 0) / total;
  const variance = chances.reduce((sum, { k, chance }) => sum + (k - mean) ** 2 * chance, mean ** 2) / total;
  return {
    amount: (top + mean * step) * sd,
    u: Math.hypot(Math.sqrt(variance) * step * sd, HIDDEN[suspicion.kind]),
  };

  function fallOver(x: number): number {
    return highest - Math.max(scoreAt(top + x), scoreAt(top - x));
  }
}
