import { BLADES } from '../../shared/blade.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { valueMm, sumOfPlaces } from '../figures/functional.ts';
import { nearestPlace, targetMean, type WeightedPlace } from './place-means.ts';
import type { Target } from './target.ts';

const STEP_MM = 0.1;
const BISECTIONS = 30;
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
  let low = 0;
  // Where nothing was read the comparison is false, and the line goes on below.
  while (low + STEP_MM <= lastMm && !(over(low) < 0 && over(low + STEP_MM) >= 0)) low += STEP_MM;
  if (low + STEP_MM > lastMm) return undefined;
  let high = low + STEP_MM;
  for (let k = 0; k < BISECTIONS; k++) {
    const middle = (low + high) / 2;
    if (over(middle) >= 0) high = middle;
    else low = middle;
  }
  const slope = (centreMm(target, high + SLOPE_MM) - centreMm(target, high - SLOPE_MM)) / (2 * SLOPE_MM);
  return { valueMm: high, uMm: targetMean(target, centrePlaces(target, high)).uMm / Math.abs(slope) };
}
