import type { GougeReading } from '../../shared/cane.ts';
import { resolutionU } from '../gauge/resolution.ts';
import { fitStraightLine } from '../gauge/straight-line.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { USUAL_GOUGE_NOISE, type GougeNoise } from './gouge-noise.ts';

/** How even a gouged piece is. A figure is absent where the readings cannot give it. */
export interface PieceEvenness {
  /** Mean at the middle. */
  readonly centre?: Estimate;
  /** Mean of both sides, and how far from the middle they were read on average. */
  readonly sides?: Estimate & { readonly arcMm: number };
  /** Side 1 less side 2 at equal distances from the middle. */
  readonly sideDifference?: Estimate;
  /** Change at the middle over 10 mm along the piece. */
  readonly along10mm?: Estimate;
  /** Thickest less thinnest at the middle, with the doubt of that difference. */
  readonly centreRange?: Estimate;
}

/** Readings this near the middle count as the centre; two sides this near in distance count as a pair. */
const CENTRE_MM = 0.6;
const PAIR_MM = 0.5;
/** Slope of the gouge at the sides. From the two circles of a usual gouge: 0.37 mm / 5.2 mm * sin(4.3 mm / 5.2 mm). */
const SIDE_SLOPE = 0.052;

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Evenness of a gouged piece, along and across. Each reading's doubt is seating, the display's step and, at the sides,
 * placement across times the gouge's slope there.
 */
export function pieceEvenness(
  readings: readonly GougeReading[],
  noise: GougeNoise = USUAL_GOUGE_NOISE,
): PieceEvenness {
  const readingU = Math.hypot(noise.seatingMm, resolutionU(noise.stepMm));
  const sideU = Math.hypot(readingU, SIDE_SLOPE * noise.placementMm);
  const centre = readings.filter(({ arcMm }) => Math.abs(arcMm) <= CENTRE_MM);
  const sides = readings.filter(({ arcMm }) => Math.abs(arcMm) > CENTRE_MM);
  return {
    ...(centre.length > 0 && {
      centre: averaged(centre, readingU),
    }),
    ...(sides.length > 0 && {
      sides: { ...averaged(sides, sideU), arcMm: mean(sides.map(({ arcMm }) => Math.abs(arcMm))) },
    }),
    ...acrossDifference(sides, sideU),
    ...along(centre, readingU),
  };
}

function averaged(readings: readonly GougeReading[], u: number): Estimate {
  return {
    valueMm: mean(readings.map(({ thicknessMm }) => thicknessMm)),
    uMm: u / Math.sqrt(readings.length),
  };
}

function acrossDifference(sides: readonly GougeReading[], u: number): Pick<PieceEvenness, 'sideDifference'> {
  const paired = (one: GougeReading) =>
    sides.some(
      (other) =>
        Math.sign(other.arcMm) !== Math.sign(one.arcMm) &&
        Math.abs(Math.abs(other.arcMm) - Math.abs(one.arcMm)) <= PAIR_MM,
    );
  const matched = sides.filter(paired);
  const [first, second] = [
    matched.filter(({ arcMm }) => arcMm < 0),
    matched.filter(({ arcMm }) => arcMm > 0),
  ];
  if (first.length === 0 || second.length === 0) return {};
  const valueMm = averaged(first, u).valueMm - averaged(second, u).valueMm;
  return { sideDifference: { valueMm, uMm: u * Math.sqrt(1 / first.length + 1 / second.length) } };
}

function along(centre: readonly GougeReading[], u: number): Pick<PieceEvenness, 'along10mm' | 'centreRange'> {
  const places = new Set(centre.map(({ alongMm }) => alongMm));
  if (places.size < 2) return {};
  const thicknesses = centre.map(({ thicknessMm }) => thicknessMm);
  const line = fitStraightLine(
    centre.map(({ alongMm }) => alongMm),
    thicknesses,
    centre.map(() => u),
  );
  return {
    along10mm: { valueMm: 10 * line.slope, uMm: 10 * line.uSlope },
    centreRange: { valueMm: Math.max(...thicknesses) - Math.min(...thicknesses), uMm: u * Math.SQRT2 },
  };
}
