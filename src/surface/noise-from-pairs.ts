import { quickNormalCdf } from '../numerics/normal-distribution.ts';
import {
  LOG_SEATING_SD,
  parabolaTop,
  readingNoise,
  USUAL_PLACEMENT_MM,
  type NoiseModel,
} from '../gauge/reading-noise.ts';
import { resolutionU } from '../gauge/resolution.ts';

/** Two readings of the same cane in consecutive passes, the surface's change between their places allowed for. */
export interface ReadingPair {
  /** The later pass: what its readings share moves all its pairs together. */
  readonly pass: number;
  /** Earlier less later: positive where cane left. */
  readonly dropMm: number;
  readonly thicknessMm: number;
  /** Slope of the surface along, mm per mm. */
  readonly slopeAlong: number;
  /** Variance of the difference for a placement of 1 mm along, and what goes with it across. */
  readonly perPlacement: number;
}

/** What of a reading's noise is known, and not asked of the pairs. */
export interface KnownNoise {
  readonly seating: boolean;
  readonly placement: boolean;
}

const FEWEST_PAIRS = 20;
/**
 * Rounds of what each pass's pairs share, and noise, in turn; they begin at the placement of a sure hand, since what a pass
 * shares shows only where placement does not cover it.
 */
const SURE_PLACEMENT_MM = 0.03;
const ROUNDS = 3;
const RATIO = 1.23;
const gridFrom = (from: number, count: number) => Array.from({ length: count }, (_, k) => from * RATIO ** k);
const SEATINGS_MM = gridFrom(0.0005, 20);
const PLACEMENTS_MM = gridFrom(0.015, 17);
/** How far hands stray from the usual placement, as the logarithm of a factor: 0.05 to 0.25 mm are common. */
export const LOG_PLACEMENT_SD = 1;
/** Noise goes by steps of this logarithm, so that one pass more seldom changes what earlier ones rest on. */
const LOG_STEP = 0.02;
const SCRAPED_SHARES = [0.05, 0.2, 0.4, 0.65];
const OFFSETS_MM = [-0.004, -0.002, 0, 0.002, 0.004];
/** How far zero and swelling move a pass against the one before. */
const OFFSET_SD_MM = 0.003;
/** How far the length moves a pass's places against those of the one before, and what is tried: a clip may be forgotten. */
const SHIFT_SD_MM = 0.07;
const SHIFTS_MM = [0.04, 0.08, 0.12, 0.2, 0.3, 0.45, 0.7].flatMap((mm) => [mm, -mm]);
/** A pass read further off than this says nothing of placement: a clip was forgotten, or its places are not where it says. */
const FURTHEST_SHIFT_MM = 0.15;
/** How much a pass's cane is swollen against the one before, as a proportion, and what is tried. */
const SWELLING_SD = 0.007;
const SWELLINGS = [0.003, 0.006, 0.01, 0.016].flatMap((part) => [part, -part]);
/** Mean of what a scraped place loses; tails of a patch included. Common practice, no source. */
const MEAN_SCRAPE_MM = 0.008;
/** A pair that no scrape explains, such as a slip, must not decide: its least probability. */
const LEAST_PROBABILITY = 1e-4;

/**
 * Seating (resolution included) and placement of one reading, from pairs of readings: each pair is either undisturbed
 * cane (a difference of two rounded normal readings about what its pass shares) or has lost an exponential amount. What
 * grows with the surface's own slope is placement. The rounding is in the likelihood, and what is believed before weighs
 * as much as a dozen pairs.
 *
 * @param stepMm Step of the gauge.
 * @param before What is believed before, or known.
 * @returns undefined with fewer than 20 pairs.
 */
export function noiseFromPairs(
  pairs: readonly ReadingPair[],
  stepMm: number,
  before: NoiseModel,
  known: KnownNoise,
): NoiseModel | undefined {
  if (pairs.length < FEWEST_PAIRS) return undefined;
  const passes = [...new Set(pairs.map(({ pass }) => pass))].map((at) =>
    pairs.filter(({ pass }) => pass === at),
  );
  const resolution = resolutionU(stepMm);
  const usual = Math.sqrt(Math.max(before.seatingMm ** 2 - resolution ** 2, (before.seatingMm / 4) ** 2));
  let noise: Scatter = { seating: usual, placement: known.placement ? before.alongMm : SURE_PLACEMENT_MM };
  for (let round = 0; round < ROUNDS; round++) {
    const shared = passes.map((own) => ({ own, by: sharedBy(own, noise, stepMm) }));
    const near = shared.filter(({ by }) => Math.abs(by.shift) <= FURTHEST_SHIFT_MM);
    const scoreOf = (tried: Scatter) =>
      (near.length > 0 ? near : shared).reduce(
        (sum, { own, by }) => sum + scoreWith(own, by, tried, stepMm),
        -0.5 * (Math.log(tried.seating / usual) / LOG_SEATING_SD) ** 2 -
          0.5 * (Math.log(tried.placement / USUAL_PLACEMENT_MM) / LOG_PLACEMENT_SD) ** 2,
      );
    if (!known.placement) {
      const { seating } = noise;
      noise = {
        seating,
        placement: likeliest(PLACEMENTS_MM, (placement) => scoreOf({ seating, placement })),
      };
    }
    if (!known.seating) {
      const { placement } = noise;
      noise = { placement, seating: likeliest(SEATINGS_MM, (seating) => scoreOf({ seating, placement })) };
    }
  }
  const seatingMm = known.seating ? before.seatingMm : stepped(Math.hypot(noise.seating, resolution));
  return known.placement
    ? { ...before, seatingMm }
    : readingNoise(seatingMm, stepped(noise.placement), 'passes');
}

const stepped = (value: number) => Math.exp(Math.round(Math.log(value) / LOG_STEP) * LOG_STEP);

/** Seating without resolution, and placement along, one standard deviation, mm. */
interface Scatter {
  readonly seating: number;
  readonly placement: number;
}

/** What all pairs of a pass share: a zero, mm, swelling, in proportion, and places read further along than written, mm. */
interface Shared {
  readonly offset: number;
  readonly swelling: number;
  readonly shift: number;
}

/** What explains one pass's pairs best. */
function sharedBy(pairs: readonly ReadingPair[], noise: Scatter, step: number): Shared {
  const sorted = pairs.map(({ dropMm }) => dropMm).sort((a, b) => a - b);
  // Scraping only adds to the drop: undisturbed places lie low among them.
  const low = sorted[Math.floor((sorted.length - 1) / 4)]!;
  const moved = Math.abs(low) > step ? OFFSETS_MM.map((offset) => low + offset) : [];
  const best = (tried: readonly Shared[]) =>
    tried
      .map((shared) => ({ shared, score: scoreWith(pairs, shared, noise, step) }))
      .reduce((a, b) => (b.score > a.score ? b : a)).shared;
  const zeroed = best([...OFFSETS_MM, ...moved].map((offset) => ({ offset, swelling: 0, shift: 0 })));
  const placed = best([zeroed, ...SHIFTS_MM.map((shift) => ({ ...zeroed, shift }))]);
  return best([placed, ...SWELLINGS.map((swelling) => ({ ...placed, swelling }))]);
}

/** How likely one pass's pairs are, with the share of scraped places that makes them likeliest. */
function scoreWith(pairs: readonly ReadingPair[], shared: Shared, noise: Scatter, step: number): number {
  const chances = chancesOf(pairs, shared, noise, step);
  const scores = SCRAPED_SHARES.map((share) => logLikelihood(chances, share));
  const price =
    straying(shared.offset / OFFSET_SD_MM) +
    straying(shared.shift / SHIFT_SD_MM) +
    straying(shared.swelling / SWELLING_SD);
  return Math.max(...scores) - price;
}

/** What a shared error of so many standard deviations costs; a moved zero or a forgotten clip may be large, at a price. */
function straying(sds: number): number {
  return 2 * Math.log(1 + sds ** 2 / 4);
}

/** Probabilities of the pairs' drops, as rounded: from undisturbed cane, and from cane that lost some. */
interface Chances {
  readonly still: Float64Array;
  readonly scraped: Float64Array;
}

/** Logarithm of a product of chances, taken only when the product runs out of range. */
function logLikelihood({ still, scraped }: Chances, share: number): number {
  let sum = 0;
  let product = 1;
  for (let i = 0; i < still.length; i++) {
    product *= (1 - share) * still[i]! + share * scraped[i]! + LEAST_PROBABILITY;
    if (product > 1e-250) continue;
    sum += Math.log(product);
    product = 1;
  }
  return sum + Math.log(product);
}

function chancesOf(
  pairs: readonly ReadingPair[],
  { offset, swelling, shift }: Shared,
  { seating, placement }: Scatter,
  step: number,
): Chances {
  const [still, scraped] = [new Float64Array(pairs.length), new Float64Array(pairs.length)];
  for (let i = 0; i < pairs.length; i++) {
    const { dropMm, thicknessMm, slopeAlong, perPlacement } = pairs[i]!;
    // The difference of two readings rounded to a step: each rounding adds step^2/12; the bin takes one of them back.
    const sd = Math.sqrt(2 * seating * seating + (step * step) / 12 + perPlacement * placement * placement);
    const low = dropMm - offset - swelling * thicknessMm - shift * slopeAlong - step / 2;
    const high = low + step;
    still[i] = quickNormalCdf(high / sd) - quickNormalCdf(low / sd);
    scraped[i] = Math.max(0, still[i]! - (excess(high, sd) - excess(low, sd)));
  }
  return { still, scraped };
}

/** What the distribution function of normal plus exponential is less than that of the normal. */
function excess(x: number, sd: number): number {
  return (
    Math.exp((0.5 * sd * sd) / MEAN_SCRAPE_MM ** 2 - x / MEAN_SCRAPE_MM) *
    quickNormalCdf(x / sd - sd / MEAN_SCRAPE_MM)
  );
}

/**
 * The value at the top of the parabola through the best of a grid and its neighbours, in logarithms. Every other place of
 * the grid is asked first, then what lies beside the best of them.
 */
function likeliest(grid: readonly number[], scoreOf: (value: number) => number): number {
  const scores = grid.map((value, i) => (i % 2 === 0 ? scoreOf(value) : -Infinity));
  const coarse = topOf(scores);
  for (const beside of [coarse - 1, coarse + 1]) if (beside in grid) scores[beside] = scoreOf(grid[beside]!);
  const at = Math.min(Math.max(topOf(scores), 1), scores.length - 2);
  return grid[at]! * RATIO ** parabolaTop(scores[at - 1]!, scores[at]!, scores[at + 1]!);
}

const topOf = (scores: readonly number[]) => scores.indexOf(Math.max(...scores));
