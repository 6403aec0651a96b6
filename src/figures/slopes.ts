import type { Functional, ReedModel, SurfacePlace } from '../surface/reed-model.ts';
import { combine, pointFunctional } from './functional.ts';

/** Down a line of one place across, away from the tip; or across the blade, towards +1. */
export type Direction = 'along' | 'across';

type Place = Omit<SurfacePlace, 'derivative'>;

/** How fast the thickness grows at a place, mm per mm. */
export function slopeAt(model: ReedModel, place: Place, direction: Direction): Functional {
  const on = { ...place, derivative: direction };
  const perMm = direction === 'across' ? 1 / model.passes[place.pass]!.halfWidthMm(place.fromTipMm) : 1;
  return combine([[perMm, pointFunctional(model, on)]]);
}
