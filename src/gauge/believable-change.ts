import { InputError } from '../../shared/errors.ts';
import { studentCoverageFactor } from '../numerics/student-quantile.ts';
import { readingVariance, type NoiseModel } from './reading-noise.ts';

/** The surface's own slope at a place, mm per mm. */
export interface Slope {
  readonly along: number;
  readonly across: number;
}

/** Scatter of one reading at a place: what is nothing on the heart costs much on the blend. */
export function scatterAtMm(noise: NoiseModel, { along, across }: Slope): number {
  return Math.sqrt(readingVariance(noise, along, across));
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
