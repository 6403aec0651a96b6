import type { GougeReading } from '../../shared/cane.ts';
import { InputError } from '../../shared/errors.ts';

/** Gouged cane before it was scraped, by the distance along the arc from the middle. */
export interface Gouge {
  readonly centreMm: number;
  /** By how much the middle of the gouge's bed lies off the middle of the tube, mm. */
  readonly offsetMm: number;
  readonly tubeRadiusMm: number;
  readonly from: 'readings' | 'common practice';
}

const USUAL_RADIUS_MM = 5.2;

/** A usual gouge. Common practice, no source. */
export const USUAL_GOUGE: Gouge = {
  centreMm: 0.59,
  offsetMm: 0.37,
  tubeRadiusMm: USUAL_RADIUS_MM,
  from: 'common practice',
};

/** How far the thickness has fallen at an arc length from the middle, as a share of the offset. */
const fall = (arcMm: number, radiusMm: number) => 1 - Math.cos(arcMm / radiusMm);

/**
 * The gouge that readings of a piece show: two circles, the inner one off centre, fitted by least squares.
 *
 * Source: t(s) = t0 - d (1 - cos(s / R)), plane geometry of two circles, own derivation.
 *
 * @param readings Three or more, at two or more distances from the middle.
 * @throws InputError for too few.
 */
export function gougeOf(readings: readonly GougeReading[], tubeDiameterMm = 2 * USUAL_RADIUS_MM): Gouge {
  const radius = tubeDiameterMm / 2;
  const n = readings.length;
  const x = readings.map(({ arcMm }) => fall(arcMm, radius));
  const meanX = x.reduce((a, b) => a + b, 0) / n;
  const meanT = readings.reduce((sum, { thicknessMm }) => sum + thicknessMm, 0) / n;
  const spread = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  if (n < 3 || spread < 1e-6)
    throw new InputError('readings: must be three or more, at the middle and at the sides');
  const slope =
    readings.reduce((sum, { thicknessMm }, i) => sum + (x[i]! - meanX) * (thicknessMm - meanT), 0) / spread;
  return {
    centreMm: meanT - slope * meanX,
    offsetMm: -slope,
    tubeRadiusMm: radius,
    from: 'readings',
  };
}

/** Thickness of a gouge before scraping at a place of the blade; the width is taken along the arc. */
export function originalMm(
  { centreMm, offsetMm, tubeRadiusMm }: Gouge,
  across: number,
  halfWidthMm: number,
): number {
  return centreMm - offsetMm * fall(across * halfWidthMm, tubeRadiusMm);
}
