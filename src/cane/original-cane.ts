import type { Blade } from '../../shared/blade.ts';
import type { Piece } from '../../shared/cane.ts';
import { IllPosedError } from '../../shared/errors.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { pieceEvenness } from './evenness.ts';
import { gougeCurve, type GougeCurve } from './gouge-curve.ts';
import { USUAL_GOUGE_NOISE, type GougeNoise } from './gouge-noise.ts';
import { tubeDiameter, USUAL_TUBE } from './tube-diameter.ts';

/** A place on a blade, by its width there. */
export interface PlaceOnCane {
  readonly blade: Blade;
  /** Fraction of the half-width, -1 at the left edge, +1 at the right, seen from the bark side, tip up. */
  readonly across: number;
  readonly halfWidthMm: number;
}

/** How thick a blade's cane was before the knife. */
export interface OriginalCane {
  readonly curve: GougeCurve;
  /** True where the tube was not measured and its diameter had to be assumed. */
  readonly tubeAssumed: boolean;
  readonly thicknessAt: (place: PlaceOnCane) => Estimate;
  readonly from: 'readings' | 'common practice';
  /** Side 1 less side 2 as gouged; absent where they were not read at equal distances from the middle. */
  readonly sideDifference?: Estimate;
}

/**
 * Distance along the bark from the middle of the piece: below 0 towards side 1, which is A's left and B's right. The
 * width of a blade is taken as a length along its bark: exact where it is flat at the tip, and at the thread, where the
 * chord of 4.7 mm stands for an arc of about 4.9, out by less than a hundredth of thickness.
 */
export function arcOf({ blade, across, halfWidthMm }: PlaceOnCane): number {
  return (blade === 'A' ? across : -across) * halfWidthMm;
}

/**
 * Original thickness of the cane everywhere on the blades that were made of a piece, from its gouge readings: the same
 * along the blade. What the readings scatter beyond their own noise is the piece's unevenness and goes into the doubt.
 *
 * @returns undefined when the readings do not give the gouge: fewer than three, or not on both sides.
 */
export function originalCane(
  piece: Pick<Piece, 'readings' | 'tubeDiameterMm' | 'tubeThreePoints'>,
  noise: GougeNoise = USUAL_GOUGE_NOISE,
): OriginalCane | undefined {
  const measured = tubeDiameter(piece);
  const curve = curveOrNone(piece.readings, measured ?? USUAL_TUBE, noise);
  if (!curve) return undefined;
  const { sideDifference } = pieceEvenness(piece.readings, noise);
  const uneven = Math.sqrt(Math.max(0, (curve.residualSdMm ?? 0) ** 2 - noise.seatingMm ** 2));
  return {
    curve,
    tubeAssumed: measured === undefined,
    thicknessAt: (place) => {
      const { valueMm, uMm } = curve.thicknessAt(arcOf(place));
      return { valueMm, uMm: Math.hypot(uMm, uneven) };
    },
    from: 'readings',
    ...(sideDifference && { sideDifference }),
  };
}

function curveOrNone(readings: Piece['readings'], tube: Estimate, noise: GougeNoise) {
  try {
    return gougeCurve(readings, tube, noise);
  } catch (error) {
    if (error instanceof IllPosedError) return undefined;
    throw error;
  }
}

/** Thicknesses of usual cane at distances from the middle, mm. Common practice, no source. */
const USUAL_READINGS = [
  [0, 0.59],
  [-4.3, 0.47],
  [4.3, 0.47],
] as const;

/** Cane as it is usually gouged, for a reed of which nothing is written down. */
export const USUAL_CANE: OriginalCane = {
  ...originalCane({
    readings: USUAL_READINGS.map(([arcMm, thicknessMm]) => ({ alongMm: 37, arcMm, thicknessMm })),
  })!,
  from: 'common practice',
};
