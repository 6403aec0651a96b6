/** What a gauge and a hand add to one reading. */
export interface NoiseModel {
  /** Seating noise of one reading, resolution included, one standard deviation. */
  readonly seatingMm: number;
  /** Placement error along the blade, one standard deviation. */
  readonly alongMm: number;
  /** Placement error across the blade, one standard deviation. */
  readonly acrossMm: number;
  readonly placementFrom: PlacementSource;
}

/** Where a placement comes from: the maker, scatter that grows with the slope, between passes or about the surface, or what is usual. */
export type PlacementSource = 'declared' | 'passes' | 'residuals' | 'usual';

/** Declared where nothing better is known. Common practice, no source. */
const DEFAULT_SEATING_MM = 0.004;
/** How well a careful hand finds a place along a blade, one standard deviation, mm. Common practice, no source. */
export const USUAL_PLACEMENT_MM = 0.15;
/** Across is held by the tongue, so that it errs less than along. Common practice, no source. */
const ACROSS_SHARE = 1 / 3;

/** Placement has one value: across goes with along. */
export function readingNoise(
  seatingMm: number,
  alongMm = USUAL_PLACEMENT_MM,
  placementFrom: PlacementSource = 'usual',
): NoiseModel {
  return { seatingMm, alongMm, acrossMm: alongMm * ACROSS_SHARE, placementFrom };
}

/** Variance of one reading where the surface has these slopes, per mm along and across. */
export function readingVariance(
  noise: Pick<NoiseModel, 'seatingMm' | 'alongMm' | 'acrossMm'>,
  slopeAlong: number,
  slopeAcross: number,
): number {
  return noise.seatingMm ** 2 + (slopeAlong * noise.alongMm) ** 2 + (slopeAcross * noise.acrossMm) ** 2;
}

/** What a fit leaves open of the slopes at its stations, mm per mm. Tuned on blades with a known truth. */
const OPEN_SLOPE = { along: 0.01, across: 0.03 };

/**
 * The same of a reading that passes are compared by, where the slopes are those of a fit: what it leaves open of them adds
 * to their squares, or a reading misplaced on a wall that the stations hardly show looks like cane that went.
 *
 * @param passes How many passes there are; where there is one, what it leaves open is in the doubt of the surface alone.
 */
export function comparedVariance(
  noise: Pick<NoiseModel, 'seatingMm' | 'alongMm' | 'acrossMm'>,
  slopeAlong: number,
  slopeAcross: number,
  passes: number,
): number {
  if (passes === 1) return readingVariance(noise, slopeAlong, slopeAcross);
  const { along, across } = OPEN_SLOPE;
  return readingVariance(noise, Math.hypot(slopeAlong, along), Math.hypot(slopeAcross, across));
}

/** Seating without resolution that is usual for a gauge of this step. Common practice, no source. */
export function usualSeatingMm(stepMm: number): number {
  return Math.min(DEFAULT_SEATING_MM, Math.max(0.0015, stepMm * 0.4));
}

/** How far gauges stray from the seating that their step promises, as the logarithm of a factor. */
export const LOG_SEATING_SD = 0.35;

/** Where the parabola through three values one step apart is highest, in steps from the middle one, at most one. */
export function parabolaTop(before: number, here: number, after: number): number {
  const bend = before - 2 * here + after;
  if (bend >= 0) return before > after ? -1 : 1;
  return Math.min(Math.max((before - after) / (2 * bend), -1), 1);
}
