import { quickNormalCdf } from '../numerics/normal-distribution.ts';

/** What a gauge and a hand add to one reading. */
export interface NoiseModel {
  /** Seating noise of one reading, resolution included, one standard deviation. */
  readonly seatingMm: number;
  /** Placement error along the blade, one standard deviation. */
  readonly alongMm: number;
  /** Placement error across the blade, one standard deviation. */
  readonly acrossMm: number;
}

/** Declared where nothing better is known. Common practice, no source. */
const DEFAULT_SEATING_MM = 0.004;
export const DEFAULT_PLACEMENT_MM = 0.05;
/** Across is held by the tongue, so that it errs less than along. */
export const ACROSS_SHARE = 1 / 3;

/** Standard deviation of rounding to a step. Source: GUM F.2.2.1. */
export function resolutionSdMm(stepMm: number): number {
  return stepMm / Math.sqrt(12);
}

/** Variance of one reading where the surface has these slopes, per mm along and across. */
export function readingVariance(noise: NoiseModel, slopeAlong: number, slopeAcross: number): number {
  return noise.seatingMm ** 2 + (slopeAlong * noise.alongMm) ** 2 + (slopeAcross * noise.acrossMm) ** 2;
}

/** Two readings of the same cane in consecutive passes, the surface's change between their places allowed for. */
export interface ReadingPair {
  /** The later pass: what its readings share moves all its pairs together. */
  readonly pass: number;
  /** Earlier less later: positive where cane left. */
  readonly dropMm: number;
  /** Variance of the difference that placement makes. */
  readonly placementVariance: number;
}

const FEWEST_PAIRS = 20;
const SEATINGS_MM = Array.from({ length: 20 }, (_, k) => 0.0005 * 1.23 ** k);
const SCRAPED_SHARES = [0.05, 0.2, 0.4, 0.65];
const OFFSETS_MM = [-0.004, -0.002, 0, 0.002, 0.004];
/** How far zero and swelling move a pass against the one before. */
const OFFSET_SD_MM = 0.003;
/** Mean of what a scraped place loses; tails of a patch included. Common practice, no source. */
const MEAN_SCRAPE_MM = 0.008;
/** How far gauges stray from the seating that their step promises, as the logarithm of a factor. */
export const LOG_SEATING_SD = 0.35;
/** A pair that no scrape explains, such as a slip, must not decide: its least probability. */
const LEAST_PROBABILITY = 1e-4;

/** Seating without resolution that is usual for a gauge of this step. Common practice, no source. */
export function usualSeatingMm(stepMm: number): number {
  return Math.min(DEFAULT_SEATING_MM, Math.max(0.0015, stepMm * 0.4));
}

/**
 * Seating noise of one reading, resolution included, from pairs of readings: each pair is either undisturbed cane (a
 * difference of two rounded normal readings about its pass's common offset) or has lost an exponential amount. The
 * rounding is in the likelihood, and the declared seating weighs as much as a dozen pairs.
 *
 * @param stepMm Step of the gauge.
 * @param declaredMm Seating, resolution included, that is believed before.
 * @returns undefined with fewer than 20 pairs.
 */
export function seatingFromPairs(
  pairs: readonly ReadingPair[],
  stepMm: number,
  declaredMm: number,
): number | undefined {
  if (pairs.length < FEWEST_PAIRS) return undefined;
  const passes = [...new Set(pairs.map(({ pass }) => pass))].map((at) =>
    pairs.filter(({ pass }) => pass === at),
  );
  const resolution = resolutionSdMm(stepMm);
  const usual = Math.log(Math.sqrt(Math.max(declaredMm ** 2 - resolution ** 2, (declaredMm / 4) ** 2)));
  const scoreOf = (seating: number) => {
    const away = (Math.log(seating) - usual) / LOG_SEATING_SD;
    return passes.reduce((sum, own) => sum + passScore(own, seating, stepMm), -0.5 * away * away);
  };
  return Math.hypot(likeliestSeating(scoreOf), resolution);
}

/** The best explanation of one pass's pairs by share and offset; a moved zero may be large, at a price. */
function passScore(pairs: readonly ReadingPair[], seating: number, step: number): number {
  const sorted = pairs.map(({ dropMm }) => dropMm).sort((a, b) => a - b);
  // Scraping only adds to the drop: undisturbed places lie low among them.
  const low = sorted[Math.floor((sorted.length - 1) / 4)]!;
  const moved = Math.abs(low) > step ? OFFSETS_MM.map((offset) => low + offset) : [];
  let best = -Infinity;
  for (const offset of [...OFFSETS_MM, ...moved]) {
    const chances = pairs.map((pair) => chancesOf(pair, seating, offset, step));
    const penalty = -2 * Math.log(1 + (offset / OFFSET_SD_MM) ** 2 / 4);
    for (const share of SCRAPED_SHARES) {
      const score = penalty + logLikelihood(chances, share);
      if (score > best) best = score;
    }
  }
  return best;
}

type Chances = readonly [still: number, scraped: number];

/** Logarithm of a product of chances, taken only when the product runs out of range. */
function logLikelihood(chances: readonly Chances[], share: number): number {
  let sum = 0;
  let product = 1;
  for (const [still, scraped] of chances) {
    product *= (1 - share) * still + share * scraped + LEAST_PROBABILITY;
    if (product > 1e-250) continue;
    sum += Math.log(product);
    product = 1;
  }
  return sum + Math.log(product);
}

/** Probabilities of a pair's drop, as rounded: from undisturbed cane, and from cane that lost some. */
function chancesOf(
  { dropMm, placementVariance }: ReadingPair,
  seating: number,
  offset: number,
  step: number,
): Chances {
  // The difference of two readings rounded to a step: each rounding adds step^2/12; the bin takes one of them back.
  const sd = Math.sqrt(2 * seating * seating + (step * step) / 12 + placementVariance);
  const low = dropMm - offset - step / 2;
  const high = low + step;
  const still = quickNormalCdf(high / sd) - quickNormalCdf(low / sd);
  // Distribution function of normal plus exponential: that of the normal less this.
  const excess = (x: number) =>
    Math.exp((0.5 * sd * sd) / MEAN_SCRAPE_MM ** 2 - x / MEAN_SCRAPE_MM) *
    quickNormalCdf(x / sd - sd / MEAN_SCRAPE_MM);
  return [still, Math.max(0, still - (excess(high) - excess(low)))];
}

/**
 * Seating at the top of the parabola through the best of the grid and its neighbours, in logarithms. Every other place
 * of the grid is asked first, then what lies beside the best of them.
 */
function likeliestSeating(scoreOf: (seating: number) => number): number {
  const scores = SEATINGS_MM.map((seating, i) => (i % 2 === 0 ? scoreOf(seating) : -Infinity));
  const coarse = topOf(scores);
  for (const beside of [coarse - 1, coarse + 1])
    if (beside in SEATINGS_MM) scores[beside] = scoreOf(SEATINGS_MM[beside]!);
  const at = Math.min(Math.max(topOf(scores), 1), scores.length - 2);
  const [before, here, after] = [scores[at - 1]!, scores[at]!, scores[at + 1]!];
  const ratio = SEATINGS_MM[1]! / SEATINGS_MM[0]!;
  return SEATINGS_MM[at]! * ratio ** parabolaTop(before, here, after);
}

const topOf = (scores: readonly number[]) => scores.indexOf(Math.max(...scores));

/** Where the parabola through three values one step apart is highest, in steps from the middle one, at most one. */
export function parabolaTop(before: number, here: number, after: number): number {
  const bend = before - 2 * here + after;
  if (bend >= 0) return before > after ? -1 : 1;
  return Math.min(Math.max((before - after) / (2 * bend), -1), 1);
}
