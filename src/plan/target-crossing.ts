import { BLADES } from '../../shared/blade.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { valueMm, sumOfPlaces } from '../figures/functional.ts';
import { firstRise } from '../numerics/root.ts';
import { nearestPlace, targetMean, type WeightedPlace } from './place-means.ts';
import type { Target } from './target.ts';

const STEP_MM = 0.1;
const TOLERANCE_MM = 1e-10;
/** Half the stretch over which the slope is taken, mm. */
const SLOPE_MM = 0.1;

/** The centre line's places at a distance, on the blades for which the target stands there. */
function centrePlaces(target: Target, fromTipMm: number): WeightedPlace[] {
  const at = nearestPlace(target.grid, fromTipMm, 0);
  const blades = BLADES.filter((blade) => Number.isFinite(target.blades[blade]?.meanMm[at] ?? NaN));
  return blades.map((blade) => ({ blade, fromTipMm, across: 0, weight: 1 / blades.length }));
}

function centreMm(target: Target, fromTipMm: number): number {
  const places = centrePlaces(target, fromTipMm);
  if (places.length === 0) return NaN;
  return target.parts.reduce(
    (sum, { reed: { benched, pass }, share, placeOn }) =>
      sum +
      valueMm(
        benched.model!,
        sumOfPlaces(
          benched.model!,
          places.map((place) => ({
            ...place,
            fromTipMm: placeOn(fromTipMm),
            pass,
            factor: place.weight * share(fromTipMm, 0, place.blade),
          })),
        ),
      ),
    places.reduce((sum, { blade, weight }) => sum + weight * target.addedMm(fromTipMm, 0, blade), 0),
  );
}

/**
 * The first distance from the tip at which the centre of a target reaches a thickness, mm, its uncertainty by the delta
 * method. Undefined where it does not.
 */
export function targetCrossing(target: Target, thicknessMm: number): Estimate | undefined {
  const over = (y: number) => centreMm(target, y) - thicknessMm;
  const lastMm = target.grid.ysMm.at(-1)!;
  // Where nothing was read the line goes on below.
  const at = firstRise(over, lastMm, STEP_MM, TOLERANCE_MM);
  if (at === undefined) return undefined;
  const [from, to] = [at - SLOPE_MM, Math.min(at + SLOPE_MM, lastMm)];
  const slope = (centreMm(target, to) - centreMm(target, from)) / (to - from);
  return { valueMm: at, uMm: targetMean(target, centrePlaces(target, at)).uMm / Math.abs(slope) };
}
