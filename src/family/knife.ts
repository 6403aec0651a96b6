import { mean, sum } from 'd3-array';
import { BLADES } from '../../shared/blade.ts';
import type { FitReading } from '../surface/reed-model.ts';
import { usualSharedErrors } from '../surface/shared-errors.ts';
import { placedMm2, type Family } from './expect.ts';
import { placeKey, type Lean } from './interpolation.ts';
import type { LearnedFamily } from './learn.ts';
import type { ReadReed } from './read-reed.ts';

/** Two passes of one reed, one after the other, with a scraping between them and no clip. */
export interface ScrapedBetween {
  readonly before: ReadReed;
  readonly after: ReadReed;
}

/** Fewer scrapings teach nothing that could be checked. */
const FEWEST_SCRAPINGS = 8;
/** What one scraping takes off, root mean square over the blade, mm: the maker's own is taken in parts of it. Common practice, no source. */
const USUAL_REMOVAL_MM = 0.0092;
/** What is usual of all makers weighs as so many places read twice; what is this maker's anywhere, as so many at each place. */
const SUPPOSED = { usual: 20, anywhere: 8 } as const;
/** What passes share beside their zero, which is their gauge's. */
const SHARED = usualSharedErrors(0.01);
/** So far a place speaks of others: one standard deviation along, mm, and across. */
const REACH = { alongMm: 1.2, across: 0.4 } as const;
/**
 * Where a knife takes less than most, the usual stands, so that what was learned makes no figure surer; none is believed to take
 * all.
 */
const BOUNDS = { least: 1, most: 9 } as const;

/** Squares of what readings of one scraping fell by, by station, with what they would be where nothing was taken. */
interface Fallen {
  readonly station: number;
  readonly squareMm2: number;
  readonly noiseMm2: number;
}

/**
 * How much more than most a maker's knife usually takes about each station, in variance: 1 where it takes as much or less.
 * What readings at one place fell by, squared, less the noise of both; drawn to the mean of the blade, and that to the usual,
 * by how much was read. One half of the scrapings is held against what the other teaches: where places by themselves tell less
 * of it than the blade's mean, that stands, and where neither tells more than the usual, nothing is taught.
 *
 * @returns As many as there are stations; nothing from too few scrapings.
 */
export function knifeOf(
  scrapings: readonly ScrapedBetween[],
  family: Pick<LearnedFamily, keyof Family | 'stations'>,
): Float64Array | undefined {
  const fallen = scrapings.map((one) => fallenBetween(one, family)).filter(({ length }) => length > 0);
  if (fallen.length < FEWEST_SCRAPINGS) return undefined;
  const ways = [usual, anywhere, byPlace];
  const told = ways.map((way) => mean([0, 1], (half) => toldOfHalf(fallen, half, family, way))!);
  const best = ways[told.indexOf(Math.max(...told))]!;
  return best === usual ? undefined : best(fallen.flat(), family);
}

type Way = (fallen: readonly Fallen[], family: Pick<LearnedFamily, 'stations'>) => Float64Array;

const usual: Way = (_, { stations }) => new Float64Array(stations.length).fill(1);

const anywhere: Way = (fallen, { stations }) =>
  new Float64Array(stations.length).fill(bounded(overall(fallen)));

const byPlace: Way = (fallen, { stations }) => {
  const all = overall(fallen);
  const [took, counted] = [new Float64Array(stations.length), new Float64Array(stations.length)];
  for (const one of fallen) {
    const weight = weightOf(one);
    took[one.station]! += weight * ratioOf(one);
    counted[one.station]! += weight;
  }
  return Float64Array.from(stations, (place) => {
    let [taken, count] = [SUPPOSED.anywhere * all, SUPPOSED.anywhere];
    stations.forEach((other, k) => {
      const far =
        ((place.fromTipMm - other.fromTipMm) / REACH.alongMm) ** 2 +
        ((place.across - other.across) / REACH.across) ** 2;
      const share = Math.exp(-far / 2);
      taken += share * took[k]!;
      count += share * counted[k]!;
    });
    return bounded(taken / count);
  });
};

function overall(fallen: readonly Fallen[]): number {
  const took = sum(fallen, (one) => weightOf(one) * ratioOf(one));
  return (took + SUPPOSED.usual) / (sum(fallen, weightOf) + SUPPOSED.usual);
}

const ratioOf = ({ squareMm2, noiseMm2 }: Fallen) => (squareMm2 - noiseMm2) / USUAL_REMOVAL_MM ** 2;

/** Where a hand's placement makes readings fall and rise more than a knife does, squares tell little of the knife. */
const weightOf = ({ noiseMm2 }: Fallen) => (1 + noiseMm2 / USUAL_REMOVAL_MM ** 2) ** -2;

const bounded = (ratio: number) => Math.min(BOUNDS.most, Math.max(BOUNDS.least, ratio));

/** Mean logarithm of the density that one half has for what the readings of the other fell by. */
function toldOfHalf(
  fallen: readonly (readonly Fallen[])[],
  half: number,
  family: Pick<LearnedFamily, 'stations'>,
  way: Way,
): number {
  const ratios = way(fallen.filter((_, i) => i % 2 !== half).flat(), family);
  return mean(fallen.filter((_, i) => i % 2 === half).flat(), ({ station, squareMm2, noiseMm2 }) => {
    const variance = noiseMm2 + ratios[station]! * USUAL_REMOVAL_MM ** 2;
    return -(Math.log(variance) + squareMm2 / variance) / 2;
  })!;
}

function fallenBetween(
  { before, after }: ScrapedBetween,
  family: Pick<LearnedFamily, keyof Family | 'stations'>,
): Fallen[] {
  const stationAt = new Map(family.stations.map((station, k) => [placeKey(station), k]));
  return BLADES.flatMap((blade) => {
    const earlier = byKey(before, blade);
    return [...byKey(after, blade)].flatMap(([key, later]) => {
      const [first, station] = [earlier.get(key), stationAt.get(key)];
      if (!first || station === undefined) return [];
      const lean = family.leans[station]!;
      return {
        station,
        squareMm2: (first.thicknessMm - later.thicknessMm) ** 2,
        noiseMm2:
          noiseMm2(first, before, family.placementMm, lean) +
          noiseMm2(later, after, family.placementMm, lean) +
          (SHARED.swelling * first.thicknessMm) ** 2 +
          (SHARED.lengthMm * lean.along) ** 2,
      };
    });
  });
}

const byKey = ({ readings }: ReadReed, blade: string) =>
  new Map(readings.filter((one) => one.blade === blade).map((one) => [placeKey(one), one]));

/** Variance of one reading about what its pass would read of the cane as it is. */
function noiseMm2(
  { noiseFactor, repeats }: FitReading,
  { seatingMm, zeroMm }: ReadReed,
  placementMm: number,
  lean: Lean,
): number {
  return ((seatingMm ** 2 + placedMm2(placementMm, lean)) * noiseFactor ** 2) / repeats + zeroMm ** 2;
}
