import type { Place } from '../../shared/blade.ts';
import { shownMm } from '../gauge/correct-readings.ts';
import { estimate, pointFunctional } from '../figures/functional.ts';
import type { FittedReed } from './fitted-reed.ts';
import type { Expectation } from '../round/oddness.ts';

/** What a go with the knife takes off at a place that is read again, and how much that varies. Common practice, no source. */
export const USUAL_REMOVAL_MM = 0.01;
export const REMOVAL_SD_MM = 0.02;
/** Scatter of one reading with its placement, where the surface is not steep. Common practice, no source. */
const READING_SD_MM = 0.008;
/** Readings of last time as near as this are of the same place. */
const SAME_PLACE_MM = 0.15;

/**
 * What a new pass may be expected to read at a place: the surface of the pass before at the same distance from the cork
 * end, less what a knife usually takes, as the gauge of that pass shows it from a true zero. Undefined where nothing is known.
 *
 * @param overallLengthMm Of the new pass; undefined for no clip.
 */
export function expectationAt(
  { model, passes, assembled }: FittedReed,
  { blade, fromTipMm, across }: Place,
  overallLengthMm: number | undefined,
): Expectation | undefined {
  const geometry = model?.passes.at(-1);
  if (!model?.blades[blade] || !geometry) return undefined;
  const then = fromTipMm + geometry.overallLengthMm - (overallLengthMm ?? geometry.overallLengthMm);
  if (then < 0 || then > geometry.bladeLengthMm) return undefined;
  const pass = model.passes.length - 1;
  const { valueMm, uMm } = estimate(model, pointFunctional(model, { blade, pass, fromTipMm: then, across }));
  const last = passes
    .at(-1)
    ?.readings.find(
      (reading) =>
        reading.blade === blade &&
        reading.across === across &&
        Math.abs(reading.fromTipMm - then) <= SAME_PLACE_MM &&
        reading.thicknessMm !== undefined,
    );
  return {
    valueMm: shownMm(valueMm - USUAL_REMOVAL_MM, {}, assembled.gauges[pass]!),
    sdMm: Math.hypot(uMm, REMOVAL_SD_MM, READING_SD_MM),
    ...(last?.thicknessMm !== undefined && { lastTimeMm: last.thicknessMm }),
  };
}
