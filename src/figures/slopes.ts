import type { Functional, ReedModel, SurfacePlace } from '../surface/reed-model.ts';
import { combine, pointFunctional } from './functional.ts';

/** Down a line of one place across, away from the tip; or across the blade, towards +1. */
export type Direction = 'along' | 'across';

type Place = Omit<SurfacePlace, 'derivative'>;

/** How fast the thickness grows at a place, mm per mm. */
export function slopeAt(model: ReedModel, place: Place, direction: Direction): Functional {
  return perMm(model, { ...place, derivative: direction }, direction === 'across' ? 1 : 0);
}

/**
 * How the thickness bends at a place, its second derivative, per mm: positive in a hollow, negative on a ridge. A blade's
 * slopes are so small that this is its curvature to within 3 % where it rises by 0.13 mm per mm, and closer elsewhere.
 */
export function curvatureAt(model: ReedModel, place: Place, direction: Direction): Functional {
  return perMm(model, { ...place, derivative: `${direction}-twice` }, direction === 'across' ? 2 : 0);
}

/** A derivative by u made one by millimetres across. */
function perMm(model: ReedModel, place: SurfacePlace, orderAcross: number): Functional {
  const halfWidthMm = model.passes[place.pass]!.halfWidthMm(place.fromTipMm);
  return combine([[1 / halfWidthMm ** orderAcross, pointFunctional(model, place)]]);
}
