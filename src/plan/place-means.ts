import { BLADES, type Blade } from '../../shared/blade.ts';
import type { PlacedZone } from '../blade/zones.ts';
import { estimate, sumOfPlaces } from '../figures/functional.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import { zoneArea, type Side } from '../figures/zone-mean.ts';
import type { Estimate, PassGeometry } from '../surface/reed-model.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import type { Target } from './target.ts';

/** A place with its weight in a mean; the weights of a mean add to 1. */
export interface WeightedPlace {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly weight: number;
}

/** Mean of a reed over some places, its cane moved up by a clip. */
export function ownMean({ benched, pass }: ReedAtPass, places: readonly WeightedPlace[], clipMm = 0) {
  return estimate(
    benched.model!,
    sumOfPlaces(
      benched.model!,
      places.map(({ blade, fromTipMm, across, weight }) => ({
        blade,
        pass,
        fromTipMm: fromTipMm + clipMm,
        across,
        factor: weight,
      })),
    ),
  );
}

/** Mean of a target over some places: its parts are read independently of each other. */
export function targetMean({ parts, addedMm }: Target, places: readonly WeightedPlace[]): Estimate {
  let value = places.reduce(
    (sum, { fromTipMm, across, blade, weight }) => sum + weight * addedMm(fromTipMm, across, blade),
    0,
  );
  let variance = 0;
  for (const { reed, share, placeOn } of parts) {
    const part = ownMean(
      reed,
      places.map((place) => ({
        ...place,
        fromTipMm: placeOn(place.fromTipMm),
        weight: place.weight * share(place.fromTipMm, place.across, place.blade),
      })),
    );
    value += part.valueMm;
    variance += part.uMm ** 2;
  }
  return { valueMm: value, uMm: Math.sqrt(variance) };
}

/** Mean of what a reed, its cane moved up by a clip, is over a target at some places. */
export function meanOverTarget(
  own: ReedAtPass,
  target: Target,
  places: readonly WeightedPlace[],
  clipMm = 0,
): Estimate {
  return lessTarget(ownMean(own, places, clipMm), targetMean(target, places));
}

/** A mean less that of a target: the two are read independently of each other. */
export const lessTarget = (mine: Estimate, theirs: Estimate): Estimate => ({
  valueMm: mine.valueMm - theirs.valueMm,
  uMm: Math.hypot(mine.uMm, theirs.uMm),
});

/** Number of the nearest place of a grid. */
export function nearestPlace({ ysMm, us }: MapGrid, fromTipMm: number, across: number): number {
  const nearest = (values: readonly number[], at: number) => {
    const step = (values.at(-1)! - values[0]!) / (values.length - 1);
    return Math.min(values.length - 1, Math.max(0, Math.round((at - values[0]!) / step)));
  };
  return nearest(ysMm, fromTipMm) * us.length + nearest(us, across);
}

/** A target's grid may end this much before a zone does, mm. */
const PAST_GRID_MM = 0.5;

/** A zone is compared where a target stands for this share of it or more. */
export const LEAST_COVER = 0.5;

/** The part of a zone for which a target stands. */
export interface ZonePlaces {
  readonly places: readonly WeightedPlace[];
  /** Share of the zone's area that it is, over both blades. */
  readonly share: number;
}

/** Places of a zone on both blades, by area, where the target was read and stands. */
export function zonePlaces(
  target: Target,
  zone: PlacedZone,
  geometry: PassGeometry,
  blades: readonly Blade[] = BLADES,
  side: Side = 'both',
): ZonePlaces {
  const { nodes, areaMm2 } = zoneArea(zone, geometry, side);
  const stands = (blade: Blade, y: number, u: number) => {
    const mean = target.blades[blade]?.meanMm;
    const isOn = mean !== undefined && y <= target.grid.ysMm.at(-1)! + PAST_GRID_MM;
    const isRead = target.parts.length === 0 || Number.isFinite(mean?.[nearestPlace(target.grid, y, u)]);
    return isOn && isRead && Number.isFinite(target.addedMm(y, u, blade));
  };
  const within = blades.flatMap((blade) =>
    nodes
      .filter(({ x, y }) => stands(blade, x, y))
      .map(({ x, y, area }) => ({ blade, fromTipMm: x, across: y, weight: area })),
  );
  const covered = within.reduce((sum, { weight }) => sum + weight, 0);
  return {
    places: within.map((place) => ({ ...place, weight: place.weight / covered })),
    share: areaMm2 > 0 ? covered / (blades.length * areaMm2) : 0,
  };
}
