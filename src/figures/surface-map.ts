import type { Blade } from '../../shared/blade.ts';
import { difference, sparseBilinear, sparseDot, type SparseWeights } from '../numerics/sparse-row.ts';
import type { BladePosterior, Estimate, ReedModel } from '../surface/reed-model.ts';
import {
  lineAcross,
  lineCovariance,
  lineValues,
  placeAcross,
  type LineAcross,
  type WeighLine,
} from './line-across.ts';
import { simultaneousFactor, turningOf, type NearCovariances } from './simultaneous.ts';
import type { Direction } from './slopes.ts';

/** Places at which a map is evaluated: every distance with every position across. */
export interface MapGrid {
  /** mm from the tip. */
  readonly ysMm: readonly number[];
  readonly us: readonly number[];
}

/** Values over a blade, row by row along. */
export interface ValueMap extends MapGrid {
  readonly valuesMm: Float64Array;
}

/** Values of a figure over a blade with their standard uncertainties. */
export interface FigureMap extends ValueMap {
  readonly uMm: Float64Array;
  /**
   * Standard uncertainties that hold at all places of the map at once, 95 %: what is further from a value is told from it
   * wherever it lies. Worked out when it is first asked for.
   *
   * @param place Of the grid, where a part of the map has a factor of its own.
   */
  readonly factor: (place?: number) => number;
}

/** A map of which any part has a factor of its own. */
export interface PartedMap extends FigureMap {
  /** Standard uncertainties that hold at once at all places of a part, or at a single place where the part has no area. */
  readonly factorOver: (isInside: (fromTipMm: number, across: number) => boolean, level: number) => number;
}

const LEVEL = 0.95;
/** So many steps along and across, or a few more, show how fast a doubt turns. */
const TURNING_STEPS = { along: 30, across: 15 };

/** Even grid over a blade of this length. */
export function mapGrid(bladeLengthMm: number, along: number, across: number): MapGrid {
  return {
    ysMm: Array.from({ length: along }, (_, i) => (bladeLengthMm * i) / (along - 1)),
    us: Array.from({ length: across }, (_, j) => -1 + (2 * j) / (across - 1)),
  };
}

/**
 * A figure of one blade over a grid of places. All places of a row lie on one spline across: its coefficients are
 * estimated once a row with their covariance, and every place is a sum of a few of them.
 *
 * @param how `order` of the derivative across that is mapped, by u, 0 for the figure itself; whether the figure is odd
 *   across, so that one half of the blade says all.
 */
function mapOf(
  model: ReedModel,
  posterior: BladePosterior,
  grid: MapGrid,
  weigh: WeighLine,
  { order = 0, isOdd = false } = {},
): PartedMap {
  const places = grid.us.map((u) => placeAcross(model, u, order));
  const rows = grid.ysMm.map(weigh);
  const lineAt = (row: number) => lineAcross(model, posterior, rows[row]!);
  const doubtAt = (row: number) => doubtsOn(lineAt(row), posterior, places);
  const valuesMm = new Float64Array(rows.length * places.length);
  rows.forEach((line, row) => {
    const values = lineValues(line, posterior);
    for (let j = 0; j < places.length; j++)
      // What a place differs by from itself is nothing, not what rounding leaves of it.
      if (!isOdd || grid.us[j] !== 0) valuesMm[row * places.length + j] = sparseDot(places[j]!, values);
  });
  let uMm: Float64Array | undefined;
  return {
    ...grid,
    valuesMm,
    // Doubts take far longer than values, and not every map is asked for them.
    get uMm() {
      return (uMm ??= Float64Array.from([...rows.keys()].flatMap(doubtAt)));
    },
    // The two halves of an odd figure say the same.
    ...factorsOf(grid, isOdd ? 0.5 : 1, (turningRows, turningColumns) =>
      nearCovariances(
        model.across.count,
        posterior,
        turningRows.map(lineAt),
        turningColumns.map((column) => places[column]!),
      ),
    ),
  };
}

/** The factors of a map, from how its doubts hang together on a few of its rows and columns; found when they are asked for. */
function factorsOf(
  { ysMm, us }: MapGrid,
  share: number,
  nearOn: (rows: readonly number[], columns: readonly number[]) => NearCovariances,
): Pick<PartedMap, 'factor' | 'factorOver'> {
  const rows = thinned([...ysMm.keys()], TURNING_STEPS.along);
  const columns = thinned([...us.keys()], TURNING_STEPS.across);
  let near: NearCovariances | undefined;
  let whole: number | undefined;
  const over = (level: number, inside?: readonly boolean[]) => {
    const { length, area } = turningOf((near ??= nearOn(rows, columns)), inside);
    return simultaneousFactor({ length: share * length, area: share * area }, level);
  };
  return {
    factor: () => (whole ??= over(LEVEL)),
    factorOver: (isInside, level) =>
      over(
        level,
        rows.flatMap((row) => columns.map((column) => isInside(ysMm[row]!, us[column]!))),
      ),
  };
}

/** Standard uncertainties of places of a line. */
function doubtsOn(line: LineAcross, posterior: BladePosterior, places: readonly SparseWeights[]): number[] {
  const covariance = lineCovariance(posterior, line, line);
  const count = line.rows.length;
  return places.map((place) => Math.sqrt(Math.max(0, sparseBilinear(place, covariance, count, place))));
}

/** Every so many of a list, so that it has about as many steps as asked for. */
function thinned<T>(list: readonly T[], steps: number): T[] {
  const stride = Math.max(1, Math.floor(list.length / steps));
  return list.filter((_, i) => i % stride === 0);
}

/** How a figure's doubts hang together between neighbouring places of a grid. */
function nearCovariances(
  count: number,
  posterior: BladePosterior,
  lines: readonly LineAcross[],
  places: readonly SparseWeights[],
): NearCovariances {
  const [rows, columns] = [lines.length, places.length];
  const near = () => new Float64Array(rows * columns);
  const [variance, over, down, slant, cross] = [near(), near(), near(), near(), near()];
  lines.forEach((line, i) => {
    const next = lines[i + 1];
    const own = lineCovariance(posterior, line, line);
    const toNext = next && lineCovariance(posterior, line, next);
    places.forEach((place, j) => {
      const at = i * columns + j;
      const beside = places[j + 1];
      variance[at] = sparseBilinear(place, own, count, place);
      if (beside) over[at] = sparseBilinear(place, own, count, beside);
      if (toNext) down[at] = sparseBilinear(place, toNext, count, place);
      if (toNext && beside) {
        slant[at] = sparseBilinear(place, toNext, count, beside);
        cross[at] = sparseBilinear(beside, toNext, count, place);
      }
    });
  });
  return { rows, columns, variance, over, down, slant, cross };
}

/** Thickness of a blade after a pass. */
export function thicknessMap(model: ReedModel, blade: Blade, pass: number, grid: MapGrid): FigureMap {
  const weigh: WeighLine = (fromTipMm) => model.lineWeights({ blade, pass, fromTipMm });
  return mapOf(model, model.after(blade, pass), grid, weigh);
}

/** How fast the thickness grows, mm per mm: down the blade away from the tip, or across towards +1. */
export function slopeMap(
  model: ReedModel,
  blade: Blade,
  pass: number,
  grid: MapGrid,
  direction: Direction,
): FigureMap {
  const line = direction === 'along' ? ({ blade, pass, derivative: direction } as const) : { blade, pass };
  const weigh: WeighLine = (fromTipMm) => model.lineWeights({ ...line, fromTipMm });
  const posterior = model.after(blade, pass);
  if (direction === 'along') return mapOf(model, posterior, grid, weigh);
  const byU = mapOf(model, posterior, grid, weigh, { order: 1 });
  const halfWidths = grid.ysMm.map(model.passes[pass]!.halfWidthMm);
  const perMm = (values: Float64Array) =>
    values.map((value, k) => value / halfWidths[Math.floor(k / grid.us.length)]!);
  let uMm: Float64Array | undefined;
  return {
    ...grid,
    valuesMm: perMm(byU.valuesMm),
    get uMm() {
      return (uMm ??= perMm(byU.uMm));
    },
    factor: byU.factor,
  };
}

/** What was taken off between two passes, at places on the later one's blade. */
export function removedMap(
  model: ReedModel,
  blade: Blade,
  before: number,
  after: number,
  grid: MapGrid,
): PartedMap {
  const weigh: WeighLine = (fromTipMm) => model.lineWeights({ blade, pass: after, fromTipMm });
  return mapOf(model, model.taken(blade, before, after), grid, weigh);
}

/** Each place less its mirror place on the same blade. */
export function mirroredMap(model: ReedModel, blade: Blade, pass: number, grid: MapGrid): FigureMap {
  const weigh: WeighLine = (fromTipMm) => {
    const rows = model.lineWeights({ blade, pass, fromTipMm });
    return rows.map((row, column) => difference(row, rows.at(-1 - column)!));
  };
  return mapOf(model, model.after(blade, pass), grid, weigh, { isOdd: true });
}

/** A map's figure at any place on it; beyond its edge, as at the edge. */
export function onMap(map: Omit<FigureMap, 'factor'>, fromTipMm: number, across: number): Estimate {
  return {
    valueMm: between(map, map.valuesMm, fromTipMm, across),
    uMm: between(map, map.uMm, fromTipMm, across),
  };
}

/** The factor of the place of the grid that is nearest. */
export function factorAt(map: FigureMap, fromTipMm: number, across: number): number {
  const nearest = (places: readonly number[], x: number) => {
    const [index, share] = shareBetween(places, x);
    return share < 0.5 ? index : index + 1;
  };
  return map.factor(nearest(map.ysMm, fromTipMm) * map.us.length + nearest(map.us, across));
}

/** A value over a map's places at any place on it, straight between the four places around. */
export function between(
  { ysMm, us }: MapGrid,
  values: Float64Array,
  fromTipMm: number,
  across: number,
): number {
  const [i, down] = shareBetween(ysMm, fromTipMm);
  const [j, over] = shareBetween(us, across);
  const at = i * us.length + j;
  return (
    (1 - down) * ((1 - over) * values[at]! + over * values[at + 1]!) +
    down * ((1 - over) * values[at + us.length]! + over * values[at + us.length + 1]!)
  );
}

/** The place before x in rising places, and how far x lies on the way to the next, 0 to 1. */
export function shareBetween(places: readonly number[], x: number): readonly [index: number, share: number] {
  let index = 0;
  let end = places.length - 1;
  while (index + 1 < end) {
    const middle = (index + end) >> 1;
    if (places[middle]! <= x) index = middle;
    else end = middle;
  }
  const share = (x - places[index]!) / (places[index + 1]! - places[index]!);
  return [index, Math.min(1, Math.max(0, share))];
}

/**
 * One map less another, of two reeds or blades whose doubts have nothing in common. The doubt of a difference turns no
 * faster than that of the map that turns faster.
 */
export function mapDifference(map: FigureMap, other: FigureMap): FigureMap {
  return {
    ysMm: map.ysMm,
    us: map.us,
    valuesMm: map.valuesMm.map((value, i) => value - other.valuesMm[i]!),
    uMm: map.uMm.map((u, i) => Math.hypot(u, other.uMm[i]!)),
    factor: (place) => Math.max(map.factor(place), other.factor(place)),
  };
}

/** The same map seen from the facing blade: left and right exchanged. */
export function facingMap(map: FigureMap): FigureMap {
  const columns = map.us.length;
  const turned = (values: Float64Array) =>
    values.map((_, i) => values[i - (i % columns) + columns - 1 - (i % columns)]!);
  return { ...map, valuesMm: turned(map.valuesMm), uMm: turned(map.uMm) };
}
