import { MM_PER, type ThicknessUnit } from '../../shared/units.ts';
import { GREYS, ramp, type Quantity } from '../theme/ramp.ts';
import { between } from './blade-drawing.ts';
import { cellsOf, contourLines, type GridLine } from '../../src/numerics/contours.ts';
import type { BladeGrid } from './map-data.ts';

/** A contour line's value, a whole number of steps. */
interface Level {
  readonly levelMm: number;
  /** Drawn stronger, and labelled. */
  readonly strong: boolean;
}

/** A level with its lines on the grid. */
export interface Contour extends Level {
  readonly lines: readonly GridLine[];
}

/** Between two lines, and how many of them make a stronger one: each hundredth and each fifth; half a thou and two. */
const stepsOf = (unit: ThicknessUnit) =>
  unit === 'thou'
    ? { stepMm: 0.5 * MM_PER.thou, strongEach: 4 }
    : { stepMm: MM_PER.hundredths, strongEach: 5 };

/** Contour levels inside the range of some values, in the maker's unit, so that a line stands for a whole number. */
export function contourLevels(quantity: Quantity, unit: ThicknessUnit, values: ArrayLike<number>): Level[] {
  const { stepMm, strongEach } = stepsOf(unit);
  let [least, most] = [Infinity, -Infinity];
  for (let k = 0; k < values.length; k++) {
    const value = values[k]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  // What lies beyond the scale of doubt is not worth a line.
  if (GREYS.includes(quantity)) most = Math.min(most, ramp(quantity, 'day').toMm);
  if (!(most > least)) return [];
  const [first, last] = [Math.ceil(least / stepMm), Math.floor(most / stepMm)];
  return Array.from({ length: last - first + 1 }, (_, k) => first + k)
    .filter((count) => count !== 0)
    .map((count) => ({ levelMm: count * stepMm, strong: count % strongEach === 0 }));
}

/** Difference of neighbours over their distance; one-sided where only one of them has a value. */
function slope(knots: ArrayLike<number>, k: number, value: (k: number) => number): number {
  const has = (n: number) => n >= 0 && n < knots.length && !Number.isNaN(value(n));
  const [from, to] = [has(k - 1) ? k - 1 : k, has(k + 1) ? k + 1 : k];
  return from === to ? 0 : (value(to) - value(from)) / (knots[to]! - knots[from]!);
}

/**
 * How steep the drawn surface is at each node of a grid, mm of thickness a mm of the picture.
 *
 * @param widthFactor Width is drawn this many times larger than length.
 * @returns ny x nu; NaN where nothing was read.
 */
function steepness(grid: BladeGrid, widthFactor: number): Float64Array {
  const { us, ysMm, valuesMm, halfWidthMm } = grid;
  const [nu, ny] = [us.length, ysMm.length];
  const found = new Float64Array(nu * ny).fill(NaN);
  for (let j = 0; j < ny; j++) {
    const half = halfWidthMm[j]! * widthFactor;
    const widening = slope(ysMm, j, (k) => halfWidthMm[k]!) * widthFactor;
    for (let i = 0; i < nu; i++) {
      if (Number.isNaN(valuesMm[j * nu + i]!)) continue;
      const across = slope(us, i, (k) => valuesMm[j * nu + k]!) / half;
      // Going down at the same share of the width, the place moves across with the edge.
      const down = slope(ysMm, j, (k) => valuesMm[k * nu + i]!) - across * us[i]! * widening;
      found[j * nu + i] = Math.hypot(across, down);
    }
  }
  return found;
}

/** A value at fractional column and row, where one of them is whole. */
function atNode(values: ArrayLike<number>, nu: number, column: number, row: number): number {
  const at = Math.floor(row) * nu + Math.floor(column);
  const next = column % 1 > 0 ? at + 1 : at + nu;
  return between(values, at, column % 1 || row % 1, next);
}

/**
 * The parts of a contour line along which the surface is no steeper than a limit, so that its neighbours keep their
 * distance from it.
 */
function gentleParts(line: GridLine, steep: ArrayLike<number>, nu: number, limit: number): GridLine[] {
  const parts: number[][] = [];
  let part: number[] | undefined;
  const over = (k: number) => atNode(steep, nu, line[k]!, line[k + 1]!) - limit;
  for (let k = 0; k + 1 < line.length; k += 2) {
    const here = over(k);
    const before = k > 0 ? over(k - 2) : here;
    if (here <= 0 !== before <= 0) {
      const share = before / (before - here);
      const cut = [0, 1].map((axis) => line[k - 2 + axis]! + share * (line[k + axis]! - line[k - 2 + axis]!));
      if (here <= 0) parts.push((part = cut));
      else part?.push(...cut);
    } else if (k === 0 && here <= 0) parts.push((part = []));
    if (here <= 0) part?.push(line[k]!, line[k + 1]!);
    else part = undefined;
  }
  return parts.filter(({ length }) => length >= 4);
}

/** How lines of one map are drawn. */
interface ContourLook {
  readonly quantity: Quantity;
  readonly unit: ThicknessUnit;
  /** Width is drawn this many times larger than length. */
  readonly widthFactor: number;
  /** A fine line is left out where its neighbours are nearer than this, mm of the picture's length. */
  readonly leastGapMm: number;
}

/**
 * Every contour line of a grid: straight between neighbouring nodes, a line for each whole hundredth or half thou. The
 * strong ones are whole; the fine ones are left out where they would run into each other.
 */
export function contoursOf(
  grid: BladeGrid,
  { quantity, unit, widthFactor, leastGapMm }: ContourLook,
): Contour[] {
  const nu = grid.us.length;
  const field = cellsOf({ nx: nu, ny: grid.ysMm.length, values: grid.valuesMm });
  const steep = steepness(grid, widthFactor);
  const limit = stepsOf(unit).stepMm / leastGapMm;
  return contourLevels(quantity, unit, grid.valuesMm).map((level) => {
    const lines = contourLines(field, level.levelMm);
    return {
      ...level,
      lines: level.strong ? lines : lines.flatMap((line) => gentleParts(line, steep, nu, limit)),
    };
  });
}
