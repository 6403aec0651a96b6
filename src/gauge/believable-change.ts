import { InputError } from '../../shared/errors.ts';
import { studentCoverageFactor } from '../numerics/student-quantile.ts';

/** Scatter of one reading by its causes, one standard deviation each. */
export interface ReadingScatter {
  /** Seating, resolution included, mm. */
  readonly seatingMm: number;
  /** Placement along the blade, mm. */
  readonly placementAlongMm: number;
  /** Placement across the blade, mm. */
  readonly placementAcrossMm: number;
}

/** How well a careful hand finds a place, along and across, one standard deviation, mm. Common practice, no source. */
const USUAL_PLACEMENT_MM = 0.15;

/** @param placementMm How well places are found, along and across, where the maker knows it. */
export function readingScatter(seatingMm: number, placementMm = USUAL_PLACEMENT_MM): ReadingScatter {
  return { seatingMm, placementAlongMm: placementMm, placementAcrossMm: placementMm };
}

/** The surface's own slope at a place, mm per mm. */
export interface Slope {
  readonly along: number;
  readonly across: number;
}

/** Scatter of one reading at a place: what is nothing on the heart costs much on the blend. */
export function scatterAtMm(scatter: ReadingScatter, slope: Slope): number {
  return Math.hypot(
    scatter.seatingMm,
    scatter.placementAlongMm * slope.along,
    scatter.placementAcrossMm * slope.across,
  );
}

/**
 * The smallest difference of two means of n readings that is more than scatter, at 95 %.
 *
 * Source: the repeatability limit of ISO 5725-6, 1.96 sqrt(2) times the standard deviation; where that was estimated from
 * few readings, Student's t in place of 1.96.
 *
 * @param sdMm Scatter of one reading, one standard deviation.
 * @param readings Number in each mean, 1 or more.
 * @param dof Degrees of freedom behind `sdMm`.
 */
export function believableChangeMm(sdMm: number, readings = 1, dof = Infinity): number {
  if (!(sdMm >= 0)) throw new InputError(`sdMm: must be 0 or more, got ${sdMm}`);
  if (!(readings >= 1)) throw new InputError(`readings: must be 1 or more, got ${readings}`);
  return studentCoverageFactor(0.95, dof) * sdMm * Math.sqrt(2 / readings);
}
