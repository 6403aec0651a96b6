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
}

const FEWEST_PAIRS = 20;
const SEATING_GRID = Array.from({ length: 60 }, (_, k) => 0.0004 * 1.07 ** k);
const SCRAPED_SHARES = [0.02, 0.1, 0.2, 0.35, 0.5];
/** A scrape takes anything up to this from a place in one pass. Common practice, no source. */
const LARGEST_SCRAPE_MM = 0.1;

/**
 * Seating noise of one reading, resolution included, from pairs of readings: each pair is either undisturbed cane (a
 * difference of two rounded normal readings about a common offset) or scraped (uniform up to a tenth of a millimetre).
 * The rounding is in the likelihood.
 *
 * @param stepMm Step of the gauge.
 * @returns undefined with fewer than 20 pairs.
 */
export function seatingFromPairs(pairs: readonly ReadingPair[], stepMm: number): number | undefined {
  if (pairs.length < FEWEST_PAIRS) return undefined;
  const offsets = [-2, -1, 0, 1, 2].map((k) => (k * stepMm) / 4);
  let best = { score: -Infinity, seating: DEFAULT_SEATING_MM };
  for (const seating of SEATING_GRID) {
    for (const share of SCRAPED_SHARES) {
      for (const offset of offsets) {
        const score = pairs.reduce(
          (sum, pair) => sum + logLikelihood(pair, seating, share, offset, stepMm),
          0,
        );
        if (score > best.score) best = { score, seating };
      }
    }
  }
  return Math.sqrt(best.seating ** 2 + resolutionSdMm(stepMm) ** 2);
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
  const scraped = pair.dropMm > 0 && pair.dropMm < LARGEST_SCRAPE_MM ? step / LARGEST_SCRAPE_MM : 1e-6;
  return Math.log((1 - share) * still + share * scraped + 1e-12);
}
