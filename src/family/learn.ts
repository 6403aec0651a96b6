import { USUAL_PLACEMENT_MM } from '../gauge/reading-noise.ts';
import { addOuter, addTimes, squareProduct } from '../numerics/dense.ts';
import type { Station } from '../surface/learned-prior.ts';
import { PRIOR_MEAN_MM } from '../surface/roughness-evidence.ts';
import { baseCovariance, COMMON_PARTS, OWN_PARTS } from './base-covariance.ts';
import { expectedOf, perPlacement, addPrecision, pullOf, type Family } from './expect.ts';
import { frameOf } from './frame.ts';
import { leansOf, stationsIn, towards, type FamilyFrame, type Stations } from './interpolation.ts';
import { readAlike, type AlikeRead, type ReadReed } from './read-reed.ts';
import { stationsOf } from './stations-of.ts';

/** A family with what it was learned from. Plain data. */
export interface LearnedFamily extends Family {
  readonly stations: readonly Station[];
  readonly frame: FamilyFrame;
  /** Covariance of the mean itself, m x m: a few reeds do not know it. */
  readonly meanCovariance: Float64Array;
  readonly reeds: number;
}

/**
 * How many reeds the covariances that are supposed before weigh: of what both blades do alike, and of each blade. Tuned on
 * invented makers with a known truth.
 */
export const SUPPOSED_REEDS = { common: 4, own: 8 } as const;
/** Supposed sizes of the covariances weigh as so many reeds against the sizes that are seen. */
const SUPPOSED_SIZE = 2;
/** The usual placement weighs as so many readings that tell nothing but it. */
const SUPPOSED_PLACED = 20;
/** Rounds of expectation and maximisation: from nothing, and from a family that was learned before. */
const ROUNDS = 5;
const MORE_ROUNDS = 1;

/**
 * What a maker's reeds have in common, by expectation and maximisation: every reed counts by its readings, with the doubt that
 * they leave, so that a partial one tells what was read. Covariances are drawn to supposed ones by the inverse Wishart's
 * mean; the mean keeps its own doubt.
 *
 * Source: Dempster, Laird & Rubin 1977, doi 10.1111/j.2517-6161.1977.tb01600.x, for the rounds; Dawid 1981, doi
 * 10.1093/biomet/68.1.265, for a matrix prior that does not depend on how many places are looked at; both from memory. Placement moves by
 * the ratio of what its share of the readings is pulled by to what is expected of it, whose fixed point is the likeliest.
 *
 * @param reeds Two or more.
 * @param before Learned from most of them already: a round more suffices.
 */
export function learnFamily(reeds: readonly ReadReed[], before?: LearnedFamily): LearnedFamily {
  const frame = before?.frame ?? frameOf(reeds);
  const stations = stationsIn(frame, before?.stations ?? stationsOf(reeds));
  const alike = readAlike(reeds, stations);
  let family: Moving = before ?? supposed(alike, stations);
  for (let round = before ? MORE_ROUNDS : ROUNDS; round > 0; round--)
    family = maximised(family, sumOver(alike, family), stations, reeds.length);
  return { ...family, stations: stations.places, frame, reeds: reeds.length };
}

/** What moves from round to round. */
type Moving = Family & Pick<LearnedFamily, 'meanCovariance'>;

/** Sums over all reeds. */
interface Sums {
  /** How their readings pull the mean, and how precisely. */
  readonly pull: Float64Array;
  readonly precision: Float64Array;
  /** Precision and squared pulls of each blade by itself; squared pulls of both together. */
  readonly eachPrecision: Float64Array;
  readonly eachPulled: Float64Array;
  readonly bothPulled: Float64Array;
  /** What placement alone is pulled by, seen and expected. */
  readonly placed: { seen: number; expected: number };
}

function sumOver(alike: readonly AlikeRead[], family: Family): Sums {
  const { meanMm, placementMm } = family;
  const m = meanMm.length;
  const square = () => new Float64Array(m * m);
  const sums = {
    ...{ pull: new Float64Array(m), precision: square(), eachPrecision: square() },
    ...{ eachPulled: square(), bothPulled: square() },
    placed: { seen: SUPPOSED_PLACED, expected: SUPPOSED_PLACED },
  };
  for (const { told, reedsMm } of alike) {
    const expected = expectedOf(told, family);
    addPrecision(sums, told, expected, reedsMm.length);
    const byPlacement = perPlacement(told, family);
    const n = byPlacement.length;
    byPlacement.forEach(
      (by, i) =>
        (sums.placed.expected += reedsMm.length * placementMm ** 2 * by * expected.inverse[i * n + i]!),
    );
    for (const thicknessMm of reedsMm) {
      const { byBlade, byReading } = pullOf(told, expected, meanMm, thicknessMm);
      byPlacement.forEach((by, i) => (sums.placed.seen += placementMm ** 2 * by * byReading[i]! ** 2));
      const both = byBlade[0].map((value, k) => value + byBlade[1][k]!);
      addTimes(sums.pull, both, 1);
      addOuter(sums.bothPulled, both);
      for (const blade of byBlade) addOuter(sums.eachPulled, blade);
    }
  }
  return sums;
}

/** Expected squares of what strays by C: count times C, and C (P - Q) C by what readings pull, P, and how precisely, Q. */
function squaresOf(
  c: Float64Array,
  count: number,
  pulled: Float64Array,
  precision: Float64Array,
): Float64Array {
  const m = Math.sqrt(c.length);
  const more = squareProduct(
    squareProduct(
      c,
      pulled.map((value, k) => value - precision[k]!),
      m,
    ),
    c,
    m,
  );
  return c.map((value, k) => count * value + more[k]!);
}

function maximised(family: Moving, sums: Sums, stations: Stations, reeds: number): Moving {
  const common = squaresOf(family.common, reeds, sums.bothPulled, sums.precision);
  const own = squaresOf(family.own, 2 * reeds, sums.eachPulled, sums.eachPrecision);
  const { meanMm, covariance } = towards(stations, family.meanMm, sums.pull, sums.precision);
  const leans = leansOf(stations, meanMm);
  const base = (parts: typeof COMMON_PARTS) => baseCovariance(parts, stations.places, meanMm, leans);
  return {
    meanMm,
    meanCovariance: covariance,
    leans,
    placementMm: family.placementMm * Math.sqrt(sums.placed.seen / sums.placed.expected),
    // The mean is found from the same reeds, and costs one of them.
    common: drawn(common, reeds - 1, base(COMMON_PARTS), meanMm, SUPPOSED_REEDS.common),
    own: drawn(own, 2 * reeds, base(OWN_PARTS), meanMm, SUPPOSED_REEDS.own),
  };
}

/** The mean of an inverse Wishart: the supposed covariance, in the size that is seen, and squares of so many. */
function drawn(
  squares: Float64Array,
  count: number,
  base: Float64Array,
  meanMm: Float64Array,
  supposedReeds: number,
): Float64Array {
  const size = sizeOf(squares, count, base, meanMm);
  return base.map((value, k) => (supposedReeds * size * value + squares[k]!) / (supposedReeds + count));
}

/** How much larger than supposed, in proportion to the thickness. */
function sizeOf(squares: Float64Array, count: number, base: Float64Array, meanMm: Float64Array): number {
  const m = meanMm.length;
  let [seen, expected] = [0, 0];
  for (let k = 0; k < m; k++) {
    seen += squares[k * m + k]! / meanMm[k]! ** 2;
    expected += base[k * m + k]! / meanMm[k]! ** 2;
  }
  return (seen / expected + SUPPOSED_SIZE) / (count + SUPPOSED_SIZE);
}

/** Before the first round: the mean of all readings, and what is supposed of how reeds stray from it. */
function supposed(alike: readonly AlikeRead[], stations: Stations): Moving {
  const m = stations.places.length;
  const meanMm = new Float64Array(m).fill(PRIOR_MEAN_MM);
  const usual: Moving = {
    ...{ meanMm, placementMm: USUAL_PLACEMENT_MM, meanCovariance: new Float64Array(m * m) },
    leans: stations.places.map(() => FLAT),
    common: stations.usualCovariance,
    own: baseCovariance(OWN_PARTS, stations.places, meanMm, []),
  };
  const { pull, precision } = sumOver(alike, usual);
  const { meanMm: mean } = towards(stations, meanMm, pull, precision);
  const leans = leansOf(stations, mean);
  const base = (parts: typeof COMMON_PARTS) => baseCovariance(parts, stations.places, mean, leans);
  return { ...usual, meanMm: mean, leans, common: base(COMMON_PARTS), own: base(OWN_PARTS) };
}

const FLAT = { along: 0, across: 0 };
