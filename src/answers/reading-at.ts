import type { Place } from '../../shared/blade.ts';
import type { FittedReed } from './fitted-reed.ts';
import { standingReadings } from './standing-readings.ts';

/** A station is meant within this of it: mm along, shares of the half-width across. */
const ALONG_MM = 0.6;
const ACROSS = 0.2;

/** The reading that stands at a place after a pass: the pass that read it, and where it lay from that pass's tip. */
export function readingAt(
  { assembled, passes }: FittedReed,
  pass: number,
  { blade, fromTipMm, across }: Place,
): { readonly passIndex: number; readonly place: Place } | undefined {
  const away = (reading: Place) =>
    Math.hypot((reading.fromTipMm - fromTipMm) / ALONG_MM, (reading.across - across) / ACROSS);
  const [nearest] = standingReadings({ assembled }, pass)
    .filter((reading) => reading.blade === blade && away(reading) <= 1)
    .sort((a, b) => away(a) - away(b));
  if (!nearest) return undefined;
  const clippedMm = assembled.passes[nearest.pass]!.overallLengthMm - assembled.passes[pass]!.overallLengthMm;
  return {
    passIndex: passes[nearest.pass]!.index,
    place: { blade, fromTipMm: nearest.fromTipMm + clippedMm, across: nearest.across },
  };
}
