import { standardNormalCdf } from '../numerics/normal.ts';

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
export const DEFAULT_SEATING_MM = 0.004;
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
  /** Earlier less later: positive where cane left. */
  readonly dropMm: number;
  /** Variance of the difference that placement makes. */
  readonly placementVariance: number;
  /** The later pass: pairs of one pass share its zero and wetness. */
  readonly pass: number;
}

const FEWEST_PAIRS = 20;
const SEATING_GRID = Array.from({ length: 24 }, (_, k) => 0.0005 * 1.18 ** k);
const SCRAPED_SHARES = [0.05, 0.2, 0.4, 0.7];
const OFFSET_STEPS = [-1, -0.5, 0, 0.5, 1];
/** A scrape takes anything up to this from a place in one pass. Common practice, no source. */
const LARGEST_SCRAPE_MM = 0.1;

/**
 * Seating noise of one reading, resolution included, from pairs of readings: each pair is either undisturbed cane (a
 * difference of two rounded normal readings about an offset that its pass shares) or scraped (uniform up to a tenth of
 * a millimetre). The rounding is in the likelihood.
 *
 * @param stepMm Step of the gauge.
 * @returns undefined with fewer than 20 pairs.
 */
export function seatingFromPairs(pairs: readonly ReadingPair[], stepMm: number): number | undefined {
  if (pairs.length < FEWEST_PAIRS) return undefined;
  const groups = [...new Set(pairs.map(({ pass }) => pass))].map((pass) =>
    pairs.filter((pair) => pair.pass === pass),
  );
  const scores = SEATING_GRID.map((seating) =>
    groups.reduce((sum, group) => sum + bestScore(group, seating, stepMm), 0),
  );
  const seating = SEATING_GRID[scores.indexOf(Math.max(...scores))]!;
  return Math.hypot(seating, resolutionSdMm(stepMm));
}

/** Log-likelihood of one pass's pairs with the offset and the share of scraped places that suit them best. */
function bestScore(group: readonly ReadingPair[], seating: number, stepMm: number): number {
  const sorted = group.map(({ dropMm }) => dropMm).sort((a, b) => a - b);
  // Scraping only adds to the drop: the undisturbed places lie low among them.
  const centres = [0.25, 0.5].map((share) => sorted[Math.floor(share * (sorted.length - 1))]!);
  const offsets = centres.flatMap((centre) => OFFSET_STEPS.map((step) => centre + step * stepMm));
  let best = -Infinity;
  for (const share of SCRAPED_SHARES) {
    for (const offset of offsets) {
      const score = group.reduce((sum, pair) => sum + logLikelihood(pair, seating, share, offset, stepMm), 0);
      if (score > best) best = score;
    }
  }
  return best;
}

function logLikelihood(
  pair: ReadingPair,
  seating: number,
  share: number,
  offset: number,
  step: number,
): number {
  // The difference of two readings rounded to a step: each rounding adds step^2/12; the bin takes one of them back.
  const variance = 2 * seating ** 2 + step ** 2 / 12 + pair.placementVariance;
  const sd = Math.sqrt(variance);
  const centre = pair.dropMm - offset;
  const still = standardNormalCdf((centre + step / 2) / sd) - standardNormalCdf((centre - step / 2) / sd);
  const scraped = centre > 0 && centre < LARGEST_SCRAPE_MM ? step / LARGEST_SCRAPE_MM : 1e-6;
  return Math.log((1 - share) * still + share * scraped + 1e-12);
}
