import { IllPosedError, InputError } from '../../shared/errors.ts';
import type { GougeReading } from '../../shared/cane.ts';
import { cholesky, solveCholesky } from '../numerics/cholesky.ts';
import { circleThrough, type Point } from '../numerics/circle.ts';
import { quadratic } from '../numerics/quadratic-form.ts';
import { resolutionU } from '../gauge/resolution.ts';
import type { Estimate } from '../surface/reed-model.ts';
import { USUAL_GOUGE_NOISE, type GougeNoise } from './gouge-noise.ts';

/**
 * The inner curve of gouged cane, as a circle inside the circle of the bark, both seen from the piece's end.
 *
 * The bark's circle has its centre at (0, 0) and its top at (0, barkRadiusMm); side 2 is at positive x.
 */
export interface GougeCurve {
  readonly barkRadiusMm: number;
  readonly innerRadiusMm: Estimate;
  /** Centre of the inner circle towards side 2: what makes the sides unequal. */
  readonly aside: Estimate;
  /** Centre of the inner circle towards the bark's top; below 0 where the sides are gouged thinner than the centre. */
  readonly towardsTop: Estimate;
  /** Thickness at a distance along the bark from the middle, measured towards the tube's axis. */
  readonly thicknessAt: (arcMm: number) => Estimate;
  /** Scatter of the readings about the curve, one standard deviation; absent where none are left over. */
  readonly residualSdMm?: number;
}

/** Parameters: x and y of the inner centre, inner radius. */
type Parameters = readonly [x: number, y: number, r: number];
const COUNT = 3;
/** Readings on one line across the piece count as one place when they are closer than this. */
const SAME_PLACE_MM = 0.3;

/** Thickness of cane between the two circles along the ray at angle `angle` from the top, and its slopes. */
function thicknessAndSlopes([x, y, r]: Parameters, barkRadiusMm: number, angle: number) {
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const off = x * cos - y * sin;
  const chord = Math.sqrt(r * r - off * off);
  return {
    mm: barkRadiusMm - (x * sin + y * cos) - chord,
    slopes: [-sin + (off * cos) / chord, -cos - (off * sin) / chord, -r / chord] as const,
  };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Three points on the inner curve to begin from: the outermost readings of both sides and the one nearest the middle. */
function firstCircle(readings: readonly GougeReading[], barkRadiusMm: number): Parameters {
  const sorted = [...readings].sort((a, b) => a.arcMm - b.arcMm);
  const middle = readings.reduce((best, one) => (Math.abs(one.arcMm) < Math.abs(best.arcMm) ? one : best));
  const outer = [sorted[0]!, middle, sorted.at(-1)!];
  const places = outer.map(({ arcMm }) => arcMm);
  if (places[1]! - places[0]! < SAME_PLACE_MM || places[2]! - places[1]! < SAME_PLACE_MM) {
    throw new IllPosedError('readings: must lie at the middle and on both sides of it');
  }
  const points = outer.map(({ arcMm }): Point => {
    const near = readings.filter((other) => Math.abs(other.arcMm - arcMm) < SAME_PLACE_MM);
    const from = barkRadiusMm - mean(near.map(({ thicknessMm }) => thicknessMm));
    return [from * Math.sin(arcMm / barkRadiusMm), from * Math.cos(arcMm / barkRadiusMm)];
  });
  const { centre, radius } = circleThrough(points[0]!, points[1]!, points[2]!);
  return [centre[0], centre[1], radius];
}

interface Fit {
  readonly parameters: Parameters;
  readonly covariance: Float64Array;
  readonly residualSdMm?: number;
}

/** Least squares by Gauss and Newton, from the circle through three points; each reading weighted by its own noise. */
function fit(readings: readonly GougeReading[], barkRadiusMm: number, noise: GougeNoise): Fit {
  let parameters = firstCircle(readings, barkRadiusMm);
  let covariance: Float64Array = new Float64Array(COUNT * COUNT);
  let leftOver = 0;
  for (let iteration = 0; iteration < 20; iteration++) {
    const normal = new Float64Array(COUNT * COUNT);
    const right = new Float64Array(COUNT);
    leftOver = 0;
    for (const { arcMm, thicknessMm } of readings) {
      const { mm, slopes } = thicknessAndSlopes(parameters, barkRadiusMm, arcMm / barkRadiusMm);
      const left = thicknessMm - mm;
      const weight = 1 / variance(parameters, barkRadiusMm, arcMm, noise);
      leftOver += left * left;
      for (let i = 0; i < COUNT; i++) {
        right[i]! += weight * slopes[i]! * left;
        for (let j = 0; j < COUNT; j++) normal[i * COUNT + j]! += weight * slopes[i]! * slopes[j]!;
      }
    }
    const factor = cholesky(normal, COUNT);
    const step = solveCholesky(factor, COUNT, right);
    parameters = [parameters[0] + step[0]!, parameters[1] + step[1]!, parameters[2] + step[2]!];
    covariance = inverse(factor);
    if (Math.hypot(...step) < 1e-10) break;
  }
  const free = readings.length - COUNT;
  return { parameters, covariance, ...(free > 0 && { residualSdMm: Math.sqrt(leftOver / free) }) };
}

/** Seating, the display's step, and placement across times the curve's own slope there. */
function variance(
  parameters: Parameters,
  barkRadiusMm: number,
  arcMm: number,
  { seatingMm, stepMm, placementMm }: GougeNoise,
): number {
  const at = (arc: number) => thicknessAndSlopes(parameters, barkRadiusMm, arc / barkRadiusMm).mm;
  const slope = (at(arcMm + 0.01) - at(arcMm - 0.01)) / 0.02;
  return seatingMm ** 2 + resolutionU(stepMm) ** 2 + (slope * placementMm) ** 2;
}

function inverse(factor: Float64Array): Float64Array {
  const result = new Float64Array(COUNT * COUNT);
  for (let j = 0; j < COUNT; j++) {
    const unit = new Float64Array(COUNT);
    unit[j] = 1;
    solveCholesky(factor, COUNT, unit).forEach((value, i) => (result[i * COUNT + j] = value));
  }
  return result;
}

/**
 * The inner curve of a gouged piece from its thicknesses and the diameter of its tube.
 *
 * With one reading at the middle and one on each side the inner circle is the circle through those three points; more
 * readings are met by least squares. The tube's own doubt is carried along by fitting once more a standard uncertainty
 * away.
 *
 * @param readings At least three, on the middle and on both sides of it.
 * @throws InputError for an impossible diameter or reading place.
 * @throws IllPosedError when the readings do not span the piece.
 */
export function gougeCurve(
  readings: readonly GougeReading[],
  tube: Estimate,
  noise: GougeNoise = USUAL_GOUGE_NOISE,
): GougeCurve {
  if (!(tube.valueMm > 0)) throw new InputError(`tube.valueMm: must be above 0, got ${tube.valueMm}`);
  if (readings.length < 3)
    throw new IllPosedError('readings: must lie at the middle and on both sides of it');
  const barkRadiusMm = tube.valueMm / 2;
  const best = fit(readings, barkRadiusMm, noise);
  const otherRadiusMm = barkRadiusMm + Math.max(tube.uMm / 2, 1e-4);
  const other = fit(readings, otherRadiusMm, noise);
  const perMm = tube.uMm / 2 / (otherRadiusMm - barkRadiusMm);
  const estimate = (value: number, weights: readonly number[], otherValue: number): Estimate => ({
    valueMm: value,
    uMm: Math.sqrt(
      quadratic(Float64Array.from(weights), best.covariance) + (perMm * (otherValue - value)) ** 2,
    ),
  });
  const parameter = (i: 0 | 1 | 2) =>
    estimate(
      best.parameters[i],
      [0, 1, 2].map((k) => Number(k === i)),
      other.parameters[i],
    );
  return {
    barkRadiusMm,
    aside: parameter(0),
    towardsTop: parameter(1),
    innerRadiusMm: parameter(2),
    thicknessAt: (arcMm) => {
      const { mm, slopes } = thicknessAndSlopes(best.parameters, barkRadiusMm, arcMm / barkRadiusMm);
      return estimate(
        mm,
        slopes,
        thicknessAndSlopes(other.parameters, otherRadiusMm, arcMm / otherRadiusMm).mm,
      );
    },
    ...(best.residualSdMm !== undefined && { residualSdMm: best.residualSdMm }),
  };
}
