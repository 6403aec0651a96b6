import { BLADES } from '../../shared/blade.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { IllPosedError } from '../../shared/errors.ts';
import { ownMean, targetMean, type WeightedPlace } from './place-means.ts';
import { scaledTarget, type OverBlade, type Target } from './target.ts';

/** How two reeds are compared: in plain thickness, as a share of the cane before scraping, or in shape alone. */
export type ComparisonMode = 'plain' | 'share' | 'shape';

/** A factor with its standard uncertainty. */
export interface Factor {
  readonly value: number;
  readonly u: number;
}

/** The target as it would be in this reed's cane: the same share of the original thickness is left at every place. */
export function inOwnCane(target: Target, ownOriginalMm: OverBlade, theirOriginalMm: OverBlade): Target {
  return scaledTarget(target, (...at) => ownOriginalMm(...at) / theirOriginalMm(...at));
}

/** Further out the surface is drawn out beyond the stations, not read. */
const INNER = 0.85;
/** Less than this many places of a grid say nothing of the whole blade. */
const FEWEST = 20;

/** Places of a target's grid inside the outermost stations, each with an equal weight. */
export function innerPlaces(target: Target, { benched }: ReedAtPass): WeightedPlace[] {
  const { ysMm, us } = target.grid;
  const places = BLADES.flatMap((blade) => {
    const mean = benched.model?.blades[blade] && target.blades[blade]?.meanMm;
    if (!mean) return [];
    return [...mean.keys()].flatMap((i) => {
      const across = us[i % us.length]!;
      if (!Number.isFinite(mean[i]!) || Math.abs(across) > INNER) return [];
      return [{ blade, fromTipMm: ysMm[Math.floor(i / us.length)]!, across, thicknessMm: mean[i]! }];
    });
  });
  return places.map(({ thicknessMm, ...place }) => ({ ...place, weight: thicknessMm }));
}

/**
 * The factor by which a target comes nearest to a reed, by least squares over the places that both have: 1.04 for "this
 * is your favourite at 104 %". The reed's own doubt and that of the target are allowed for, to first order.
 *
 * @throws IllPosedError when they share too few places.
 */
export function commonFactor(own: ReedAtPass, target: Target): Factor {
  const places = innerPlaces(target, own);
  if (places.length < FEWEST)
    throw new IllPosedError('target: has too few places in common with the reed to compare shapes');
  const squares = places.reduce((sum, { weight }) => sum + weight * weight, 0);
  const weighted = places.map((place) => ({ ...place, weight: place.weight / squares }));
  const mine = ownMean(own, weighted);
  const theirs = targetMean(target, weighted);
  return { value: mine.valueMm, u: Math.hypot(mine.uMm, mine.valueMm * theirs.uMm) };
}

/** The target after its best common factor: what is left is a difference of shape. */
export function inOwnScale(target: Target, { value }: Factor): Target {
  return scaledTarget(target, () => value);
}
