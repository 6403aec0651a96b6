import { InputError } from '../../shared/errors.ts';
import type { FitReading, ReedModel } from '../surface/reed-model.ts';
import { pointFunctional, valueMm } from './functional.ts';

/** How much each reading of a pass lies above the surface, mm, in the order of the readings. */
export function residualsMm(model: ReedModel, pass: number, readings: readonly FitReading[]): number[] {
  return readings.map(
    ({ blade, fromTipMm, across, thicknessMm }) =>
      thicknessMm - valueMm(model, pointFunctional(model, { blade, pass, fromTipMm, across })),
  );
}

/** Height parameters of what a surface leaves over, mm. */
export interface Roughness {
  /** Arithmetical mean height. */
  readonly saMm: number;
  /** Root mean square height. */
  readonly sqMm: number;
  /** Highest peak to deepest pit. */
  readonly szMm: number;
}

/**
 * Height parameters of residuals about their mean: ridges that scraping left, and the gauge's own noise with them.
 *
 * Source: ISO 25178-2, Sa, Sq and Sz, with the readings as the sampled surface.
 *
 * @throws InputError for no residuals.
 */
export function roughness(heightsMm: readonly number[]): Roughness {
  const n = heightsMm.length;
  if (n === 0) throw new InputError('heightsMm: must hold at least one height, got none');
  const mean = heightsMm.reduce((sum, height) => sum + height, 0) / n;
  const heights = heightsMm.map((height) => height - mean);
  return {
    saMm: heights.reduce((sum, height) => sum + Math.abs(height), 0) / n,
    sqMm: Math.sqrt(heights.reduce((sum, height) => sum + height * height, 0) / n),
    szMm: Math.max(...heights) - Math.min(...heights),
  };
}
