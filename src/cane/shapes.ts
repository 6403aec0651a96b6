import type { Shape } from '../../shared/cane.ts';
import { InputError } from '../../shared/errors.ts';
import type { Planform } from '../../shared/planform.ts';
import { resolutionU } from '../gauge/resolution.ts';

type Widths = Shape['widths'];

/** Standard uncertainty of one width: read to 0.01 mm, repeated to about 0.01. Common practice, no source. */
export const WIDTH_U_MM = Math.hypot(resolutionU(0.01), 0.01);

/** A figure of an outline with its standard uncertainty, in the unit of the figure. */
export interface OutlineFigure {
  readonly value: number;
  readonly u: number;
}

/** Width of a shape at a distance from the fold, straight between the given ones. @throws InputError outside them. */
export function widthAt(widths: Widths, fromFoldMm: number): number {
  const last = widths.at(-1)!;
  if (!(fromFoldMm >= widths[0]!.fromFoldMm && fromFoldMm <= last.fromFoldMm)) {
    throw new InputError(
      `fromFoldMm: must lie from ${widths[0]!.fromFoldMm} to ${last.fromFoldMm}, got ${fromFoldMm}`,
    );
  }
  const next = widths.findIndex((width) => width.fromFoldMm >= fromFoldMm);
  const b = widths[next]!;
  const a = widths[Math.max(0, next - 1)]!;
  if (a === b) return b.widthMm;
  const share = (fromFoldMm - a.fromFoldMm) / (b.fromFoldMm - a.fromFoldMm);
  return a.widthMm + share * (b.widthMm - a.widthMm);
}

/** How wide, how flared and how large a shape is between two distances from the fold. */
export interface ShapeFigures {
  readonly widthAtFoldMm: OutlineFigure;
  /** Loss of width per mm of length, over the whole stretch. */
  readonly flareMmPerMm: OutlineFigure;
  readonly areaMm2: OutlineFigure;
}

/** Every distance at which a width of either outline stands, within a stretch and with its ends. */
function placesBetween(outlines: readonly Widths[], fromMm: number, toMm: number): number[] {
  const inside = outlines
    .flat()
    .map(({ fromFoldMm }) => fromFoldMm)
    .filter((place) => place > fromMm && place < toMm);
  return [...new Set([fromMm, ...inside, toMm])].sort((a, b) => a - b);
}

/** Integral of straight pieces, and its doubt for widths that err independently (trapezium rule; exact for the pieces). */
function area(widths: Widths, places: readonly number[]): OutlineFigure {
  const weights = places.map((place, i) => ((places[i + 1] ?? place) - (places[i - 1] ?? place)) / 2);
  const value = places.reduce((sum, place, i) => sum + weights[i]! * widthAt(widths, place), 0);
  return { value, u: WIDTH_U_MM * Math.hypot(...weights) };
}

/** The stretch that both shapes cover. @throws InputError when they share none. */
function commonStretch(one: Widths, other: Widths): readonly [fromMm: number, toMm: number] {
  const fromMm = Math.max(one[0]!.fromFoldMm, other[0]!.fromFoldMm);
  const toMm = Math.min(one.at(-1)!.fromFoldMm, other.at(-1)!.fromFoldMm);
  if (fromMm >= toMm) throw new InputError('shapes: must share a stretch of their length');
  return [fromMm, toMm];
}

function figuresBetween(widths: Widths, fromMm: number, toMm: number): ShapeFigures {
  const [first, last] = [widthAt(widths, fromMm), widthAt(widths, toMm)];
  return {
    widthAtFoldMm: { value: first, u: WIDTH_U_MM },
    flareMmPerMm: {
      value: (first - last) / (toMm - fromMm),
      u: (WIDTH_U_MM * Math.SQRT2) / (toMm - fromMm),
    },
    areaMm2: area(widths, placesBetween([widths], fromMm, toMm)),
  };
}

/** Figures of one shape over all of its length. */
export function shapeFigures({ widths }: Pick<Shape, 'widths'>): ShapeFigures {
  return figuresBetween(widths, widths[0]!.fromFoldMm, widths.at(-1)!.fromFoldMm);
}

/** One shape less another over the stretch that both cover. */
export interface ShapeComparison {
  readonly fromMm: number;
  readonly toMm: number;
  readonly one: ShapeFigures;
  readonly other: ShapeFigures;
  readonly flareMmPerMm: OutlineFigure;
  readonly areaMm2: OutlineFigure;
  /** Difference of width wherever either was read. */
  readonly widths: readonly { readonly fromFoldMm: number; readonly differenceMm: OutlineFigure }[];
  /** Place and size of the largest difference of width. */
  readonly most: { readonly fromFoldMm: number; readonly differenceMm: OutlineFigure };
}

const minus = (a: OutlineFigure, b: OutlineFigure): OutlineFigure => ({
  value: a.value - b.value,
  u: Math.hypot(a.u, b.u),
});

/** Compares two shapes in width, flare and area. @throws InputError when they share no stretch. */
export function compareShapes(one: Pick<Shape, 'widths'>, other: Pick<Shape, 'widths'>): ShapeComparison {
  const [fromMm, toMm] = commonStretch(one.widths, other.widths);
  const [a, b] = [figuresBetween(one.widths, fromMm, toMm), figuresBetween(other.widths, fromMm, toMm)];
  const widths = placesBetween([one.widths, other.widths], fromMm, toMm).map((fromFoldMm) => ({
    fromFoldMm,
    differenceMm: {
      value: widthAt(one.widths, fromFoldMm) - widthAt(other.widths, fromFoldMm),
      u: WIDTH_U_MM * Math.SQRT2,
    },
  }));
  const most = widths.reduce((best, width) =>
    Math.abs(width.differenceMm.value) > Math.abs(best.differenceMm.value) ? width : best,
  );
  return {
    fromMm,
    toMm,
    one: a,
    other: b,
    flareMmPerMm: minus(a.flareMmPerMm, b.flareMmPerMm),
    areaMm2: minus(a.areaMm2, b.areaMm2),
    widths,
    most,
  };
}

/**
 * Outline of the blades cut with a shape and tied so long: the fold is the tip, so a distance from the fold becomes one
 * from the cork end.
 *
 * @throws InputError when fewer than two widths stand above the cork end.
 */
export function planformOf({ widths }: Pick<Shape, 'widths'>, tiedOverallMm: number): Planform {
  const above = widths
    .map(({ fromFoldMm, widthMm }) => ({
      fromCorkMm: Number((tiedOverallMm - fromFoldMm).toFixed(4)),
      widthMm,
    }))
    .filter(({ fromCorkMm }) => fromCorkMm >= 0)
    .reverse();
  if (above.length < 2) throw new InputError(`tiedOverallMm: must leave two widths, got ${tiedOverallMm}`);
  return { widths: above };
}
