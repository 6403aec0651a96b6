import { ascending } from 'd3-array';
import type { Place } from '../../shared/blade.ts';
import { STRANGE_SDS } from '../family/belongs.ts';
import { cholesky, solveCholesky } from '../numerics/cholesky.ts';
import type { Expectation } from './oddness.ts';
import { placeKey } from './place-words.ts';
import { strangenessOf, type KnownPlaces, type Way } from './short-round.ts';

interface Read extends Place {
  readonly thicknessMm: number;
}

/** So many of the nearest readings tell what all would. */
const MOST = 30;
/** As far along as a half-width is across, mm. */
const HALF_WIDTH_MM = 3;

const distance = (a: Place, b: Place) =>
  Math.hypot((a.fromTipMm - b.fromTipMm) / HALF_WIDTH_MM, a.across - b.across);

/**
 * What a reading of a place would show by the maker's other reeds and by what was read about it in the same round. Undefined
 * where nothing was learned, and where what was read is unlike those reeds.
 *
 * Source: prediction of a Gaussian process, Rasmussen & Williams 2006, eq. 2.25 and 2.26, from memory.
 */
export function expectationByReeds(
  { places, ways }: Pick<KnownPlaces, 'places' | 'ways'>,
  place: Place,
  others: readonly Read[],
): Expectation | undefined {
  const numbers = new Map(places.map((one, k) => [placeKey(one), k]));
  const at = numbers.get(placeKey(place));
  if (at === undefined) return undefined;
  const near = others
    .flatMap((read) => {
      const k = numbers.get(placeKey(read));
      return k === undefined || k === at ? [] : [{ k, mm: read.thicknessMm, away: distance(read, place) }];
    })
    .sort((a, b) => ascending(a.away, b.away))
    .slice(0, MOST);
  const learned = ways.filter(({ reeds }) => reeds !== undefined).map((way) => expectedBy(way, at, near));
  const nearest = learned.reduce<(typeof learned)[number] | undefined>(
    (best, one) => (best && best.sds <= one.sds ? best : one),
    undefined,
  );
  if (!nearest || nearest.sds > STRANGE_SDS) return undefined;
  return { valueMm: Math.max(0, nearest.valueMm), sdMm: nearest.sdMm, by: 'reeds' };
}

function expectedBy(way: Way, at: number, near: readonly { readonly k: number; readonly mm: number }[]) {
  const { meanMm, covariance, noiseMm2 } = way.knowing;
  const [n, m] = [noiseMm2.length, near.length];
  const own = covariance[at * (n + 1)]! + noiseMm2[at]!;
  if (m === 0) return { valueMm: meanMm[at]!, sdMm: Math.sqrt(own), sds: 0 };
  const matrix = Float64Array.from({ length: m * m }, (_, cell) => {
    const [i, j] = [Math.floor(cell / m), cell % m];
    return covariance[near[i]!.k * n + near[j]!.k]! + (i === j ? noiseMm2[near[i]!.k]! : 0);
  });
  const factor = cholesky(matrix, m);
  const toPlace = near.map(({ k }) => covariance[at * n + k]!);
  const surprise = near.map(({ k, mm }) => mm - meanMm[k]!);
  const weights = solveCholesky(factor, m, toPlace);
  const times = (values: readonly number[]) => values.reduce((sum, value, i) => sum + weights[i]! * value, 0);
  return {
    valueMm: meanMm[at]! + times(surprise),
    sdMm: Math.sqrt(own - times(toPlace)),
    sds: strangenessOf(
      way,
      near.map(({ k, mm }) => ({ place: k, thicknessMm: mm, share: 1 })),
    ),
  };
}
