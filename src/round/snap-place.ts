/** A place on a blade whose name is known. */
export interface OnBlade {
  readonly fromTipMm: number;
  readonly across: number;
}

/** As near as a finger or a pointer aims, and as a step of the arrow keys goes. */
export const STEP = { fromTipMm: 0.5, across: 0.1 };
export const FINE_STEP = { fromTipMm: 0.1, across: 0.02 };

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));
const snap = (value: number, step: number) => Number((Math.round(value / step) * step).toFixed(3)) + 0;

/** The nearest place of a lattice of steps, on the blade. */
export function snapPlace({ fromTipMm, across }: OnBlade, bladeLengthMm: number, step = STEP): OnBlade {
  return {
    fromTipMm: snap(clamp(fromTipMm, 0, bladeLengthMm), step.fromTipMm),
    across: snap(clamp(across, -1, 1), step.across),
  };
}

/** The nearest of some places to where a finger points, within reach; undefined where there is none. */
export function placeNear<P extends OnBlade>(
  places: readonly P[],
  { fromTipMm, across }: OnBlade,
): P | undefined {
  const away = (place: P) =>
    Math.max(
      Math.abs(place.fromTipMm - fromTipMm) / STEP.fromTipMm,
      Math.abs(place.across - across) / (2 * STEP.across),
    );
  const [nearest] = [...places].sort((a, b) => away(a) - away(b));
  return nearest && away(nearest) <= 1 ? nearest : undefined;
}

/** A pointer this far beyond the edge, as a share of the half-width, or above the tip, mm, still means the edge. */
const BEYOND = { across: 0.15, fromTipMm: 0.5 };

/** Where a pointer means: the station within reach, a place of the lattice on the blade, or nothing beyond the blade. */
export function pickedPlace(
  stations: readonly OnBlade[],
  pointed: OnBlade,
  bladeLengthMm: number,
): OnBlade | undefined {
  const { fromTipMm, across } = pointed;
  const isBeyond =
    Math.abs(across) > 1 + BEYOND.across || fromTipMm < -BEYOND.fromTipMm || fromTipMm > bladeLengthMm;
  if (isBeyond) return undefined;
  const near = placeNear(stations, pointed);
  return near ? { fromTipMm: near.fromTipMm, across: near.across } : snapPlace(pointed, bladeLengthMm);
}
