import type { Blade } from '../../shared/blade.ts';
import type { Functional, ReedModel } from '../surface/reed-model.ts';
import { sumOfPlaces } from './functional.ts';

/** Surroundings that a place is held against: mm along, fractions of the half-width across. */
const AROUND = { alongMm: 0.7, across: 0.13 };
/** Pairs about a place, so that an even slope is no ripple. */
const PAIRS = [
  [1, 0],
  [0, 1],
  [0.7, 0.7],
  [0.7, -0.7],
] as const;

/** A place of a blade and what its thickness counts. */
export interface Weighed {
  readonly fromTipMm: number;
  readonly across: number;
  readonly factor: number;
}

/**
 * How far a place stands out of its surroundings: its thickness less the mean of pairs of places about it. A dig is below
 * zero, a bump above; a slope, however steep, is none. A pair of which one place lies off the blade is left out.
 */
export function ripplePlaces(fromTipMm: number, across: number, lengthMm: number): Weighed[] {
  const pairs = PAIRS.map(([along, aside]) =>
    [1, -1].map((way) => ({
      fromTipMm: fromTipMm + way * along * AROUND.alongMm,
      across: across + way * aside * AROUND.across,
    })),
  ).filter((pair) =>
    pair.every(({ fromTipMm: y, across: u }) => y >= 0 && y <= lengthMm && Math.abs(u) <= 1),
  );
  const around = pairs.flat().map((place) => ({ ...place, factor: -0.5 / pairs.length }));
  return around.length === 0 ? [] : [{ fromTipMm, across, factor: 1 }, ...around];
}

/**
 * A place's ripple on a blade after a pass, mm: see `ripplePlaces`.
 *
 * @returns Value 0 without doubt in a corner where no pair of places lies on the blade.
 */
export function rippleFunctional(
  model: ReedModel,
  blade: Blade,
  pass: number,
  { fromTipMm, across }: { readonly fromTipMm: number; readonly across: number },
): Functional {
  const { bladeLengthMm } = model.passes[pass]!;
  const places = ripplePlaces(fromTipMm, across, bladeLengthMm);
  return sumOfPlaces(
    model,
    places.map((place) => ({ ...place, blade, pass })),
  );
}
