import { bisectRight } from 'd3-array';
import type { Blade } from '../../shared/blade.ts';
import type { GridLine } from '../../src/numerics/contours.ts';
import type { BladeGrid, OutlinePoint } from './map-data.ts';

/** Drawing units: CSS pixels at the usual size of the map. */
const UNITS_PER_MM = 22;
/** Width is drawn larger than length, so that two digits fit beside each other; every caption says so. */
export const WIDTH_FACTOR = 1.4;
/** Room for the blade's name and a clipped rim above the tip, for the thread below, for the scale on the outer side. */
const ABOVE = 30;
const BELOW = 32;
const SCALE_WIDTH = 38;
const MARGIN = 8;
/** Half the width of the widest usual tip, mm: blades up to this wide all stand on the same centre line. */
const USUAL_HALF_WIDTH_MM = 3.7;

/** A point of a picture, drawing units. */
export type Point = readonly [x: number, y: number];

/** Where things stand in one blade's picture. */
export interface BladeDrawing {
  readonly width: number;
  readonly height: number;
  readonly centre: number;
  readonly lengthMm: number;
  readonly unitsPerMm: number;
  /** The side of the picture on which the distances stand: the outer one where two blades lie beside each other. */
  readonly outer: -1 | 1;
  halfWidthMm(fromTipMm: number): number;
  x(fromTipMm: number, across: number): number;
  y(fromTipMm: number): number;
  /** The place under a point of the picture; `across` beyond -1 or +1 is off the wood. */
  placeAt(x: number, y: number): OutlinePoint;
}

/** Number of the last knot at or below a value, and how far the value is on towards the next; held at both ends. */
export function locate(knots: ArrayLike<number>, value: number): readonly [index: number, share: number] {
  const last = knots.length - 1;
  if (last < 1 || value <= knots[0]!) return [0, 0];
  if (value >= knots[last]!) return [last - 1, 1];
  const k = bisectRight(knots, value) - 1;
  return [k, (value - knots[k]!) / (knots[k + 1]! - knots[k]!)];
}

/** A value on the way from one of a list to another, the next one unless told. */
export function between(values: ArrayLike<number>, k: number, share: number, next = k + 1): number {
  return share === 0 ? values[k]! : values[k]! + share * (values[next]! - values[k]!);
}

/** Value at fractional position `index` in a list, straight lines between. */
function atIndex(values: ArrayLike<number>, index: number): number {
  const k = Math.min(Math.floor(index), values.length - 2);
  return between(values, k, index - k);
}

/** The places of the blade that a line in grid coordinates runs through. */
export function gridPlaces({ us, ysMm }: Pick<BladeGrid, 'us' | 'ysMm'>, line: GridLine): OutlinePoint[] {
  return Array.from({ length: line.length / 2 }, (_, k) => ({
    across: atIndex(us, line[2 * k]!),
    fromTipMm: atIndex(ysMm, line[2 * k + 1]!),
  }));
}

/** The grid's value at a place, bilinear; NaN off the wood or where nothing was read. */
export function gridValue(
  { us, ysMm }: BladeGrid,
  values: ArrayLike<number>,
  { fromTipMm, across }: OutlinePoint,
): number {
  if (across < -1 || across > 1 || fromTipMm < ysMm[0]! || fromTipMm > ysMm[ysMm.length - 1]!) return NaN;
  const [i, shareAcross] = locate(us, across);
  const [j, shareAlong] = locate(ysMm, fromTipMm);
  const row = (k: number) => {
    const start = k * us.length + i;
    return shareAcross === 0
      ? values[start]!
      : values[start]! + shareAcross * (values[start + 1]! - values[start]!);
  };
  return shareAlong === 0 ? row(j) : row(j) + shareAlong * (row(j + 1) - row(j));
}

/**
 * @param lengthMm Length that the picture gives room for, so that blades and passes share one scale.
 * @param outer The side on which the distances stand.
 */
export function bladeDrawing(grid: BladeGrid, lengthMm: number, outer: -1 | 1 = -1): BladeDrawing {
  const widest = Math.max(USUAL_HALF_WIDTH_MM, ...Array.from(grid.halfWidthMm));
  const reach = widest * WIDTH_FACTOR * UNITS_PER_MM;
  const centre = (outer < 0 ? SCALE_WIDTH : MARGIN) + reach;
  const halfWidthMm = (fromTipMm: number) => {
    const [k, share] = locate(grid.ysMm, fromTipMm);
    return between(grid.halfWidthMm, k, share);
  };
  return {
    width: SCALE_WIDTH + 2 * reach + MARGIN,
    height: ABOVE + lengthMm * UNITS_PER_MM + BELOW,
    centre,
    lengthMm,
    unitsPerMm: UNITS_PER_MM,
    outer,
    halfWidthMm,
    x: (fromTipMm, across) => centre + across * halfWidthMm(fromTipMm) * WIDTH_FACTOR * UNITS_PER_MM,
    y: (fromTipMm) => ABOVE + fromTipMm * UNITS_PER_MM,
    placeAt: (x, y) => {
      const fromTipMm = (y - ABOVE) / UNITS_PER_MM;
      return { fromTipMm, across: (x - centre) / (halfWidthMm(fromTipMm) * WIDTH_FACTOR * UNITS_PER_MM) };
    },
  };
}

/** The side of the picture on which side 1 of the reed lies: A's left and B's right, seen from the bark side. */
export function side1Of(blade: Blade): -1 | 1 {
  return blade === 'A' ? -1 : 1;
}

const round = (value: number) => Math.round(value * 10) / 10;

function pathOf(points: readonly Point[], closed: boolean): string {
  let path = '';
  for (const [x, y] of points) path += `${path ? 'L' : 'M'}${round(x)} ${round(y)}`;
  return path && closed ? `${path}Z` : path;
}

/** Path through places of the blade. */
export function placesPath(drawing: BladeDrawing, places: readonly OutlinePoint[], closed = false): string {
  return pathOf(
    places.map(({ fromTipMm, across }) => [drawing.x(fromTipMm, across), drawing.y(fromTipMm)]),
    closed,
  );
}

/** Where a line in grid coordinates stands in the picture. */
export function gridPoints(
  { centre, y }: BladeDrawing,
  { us, ysMm, halfWidthMm }: BladeGrid,
  line: GridLine,
): Point[] {
  const points: Point[] = [];
  for (let k = 0; k < line.length; k += 2) {
    const [column, row] = [line[k]!, line[k + 1]!];
    // The row tells the width: it need not be looked for.
    const widthUnits = atIndex(halfWidthMm, row) * WIDTH_FACTOR * UNITS_PER_MM;
    points.push([centre + atIndex(us, column) * widthUnits, y(atIndex(ysMm, row))]);
  }
  return points;
}

/** Path through lines in grid coordinates. */
export function gridPath(
  drawing: BladeDrawing,
  grid: BladeGrid,
  lines: readonly GridLine[],
  closed: boolean,
): string {
  return lines.map((line) => pathOf(gridPoints(drawing, grid, line), closed)).join('');
}

/** Outline of the blade from the tip to the thread. */
export function outlinePath(drawing: BladeDrawing, grid: BladeGrid, bladeLengthMm: number): string {
  const ys = [0, ...Array.from(grid.ysMm).filter((y) => y > 0 && y < bladeLengthMm), bladeLengthMm];
  const edge = (across: number) => ys.map((fromTipMm) => ({ fromTipMm, across }));
  return placesPath(drawing, [...edge(-1), ...edge(1).reverse()], true);
}
