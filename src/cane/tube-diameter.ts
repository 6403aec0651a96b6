import type { Piece } from '../../shared/cane.ts';
import { InputError } from '../../shared/errors.ts';
import { circleThrough } from '../numerics/circle.ts';
import { resolutionU } from '../gauge/resolution.ts';
import type { Estimate } from '../surface/reed-model.ts';

/** A gauge that stands on two edges and reads the height of the bark midway between them. */
export interface ThreePoints {
  /** Distance between the two edges, mm. */
  readonly feetApartMm: number;
  /** Height of the bark over the line between the edges, mm. */
  readonly heightMm: number;
}

/** Smallest steps of what is read. Common practice, no source. */
const STEP_MM = { height: 0.01, feet: 0.02, radiusGauge: 0.25 };
/** Assumed where no tube was measured; most tubes lie within half a millimetre of it. Common practice, no source. */
export const USUAL_TUBE: Estimate = { valueMm: 10.4, uMm: 0.25 };

/**
 * Outer diameter of a tube from a three-point gauge: the circle through both feet and the top of the arc.
 *
 * With feet c apart and height h the diameter is c^2 / (4 h) + h; its doubt comes from the steps of both by the law of
 * propagation (JCGM 100:2008, 5.1.2).
 *
 * @throws InputError when the height is not above 0, or more than half the distance of the feet.
 */
export function diameterFromThreePoints({ feetApartMm, heightMm }: ThreePoints): Estimate {
  if (!(heightMm > 0 && heightMm <= feetApartMm / 2)) {
    throw new InputError(
      `heightMm: must lie above 0 and up to half of ${feetApartMm} mm between the feet, got ${heightMm}`,
    );
  }
  const half = feetApartMm / 2;
  const { radius } = circleThrough([-half, 0], [0, heightMm], [half, 0]);
  const ofHeight = resolutionU(STEP_MM.height) * Math.abs(1 - half ** 2 / heightMm ** 2);
  const ofFeet = resolutionU(STEP_MM.feet) * (feetApartMm / (2 * heightMm));
  return { valueMm: 2 * radius, uMm: Math.hypot(ofHeight, ofFeet) };
}

/** Diameter of a piece's tube: read by three points, by a gauge of known radii, or undefined. */
export function tubeDiameter(piece: Pick<Piece, 'tubeDiameterMm' | 'tubeThreePoints'>): Estimate | undefined {
  if (piece.tubeThreePoints) return diameterFromThreePoints(piece.tubeThreePoints);
  if (piece.tubeDiameterMm === undefined) return undefined;
  return { valueMm: piece.tubeDiameterMm, uMm: resolutionU(2 * STEP_MM.radiusGauge) };
}
