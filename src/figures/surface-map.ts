import type { Blade } from '../../shared/blade.ts';
import { dot, multiply } from '../numerics/quadratic-form.ts';
import {
  sparseBilinear,
  sparseDot,
  sparseTimes,
  takeSparse,
  type SparseWeights,
} from '../numerics/sparse-row.ts';
import { basisAt } from '../numerics/uniform-b-spline.ts';
import type { BladePosterior, Estimate, ReedModel } from '../surface/reed-model.ts';
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
}

/** Adds the weights of one coefficient of the figure as a spline across at a distance from the tip. */
type WeighLine = (target: Float64Array, fromTipMm: number, column: number) => void;

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
 * @param order Of the derivative across that is mapped, by u; 0 for the figure itself.
 */
function mapOf(model: ReedModel, blade: Blade, grid: MapGrid, weigh: WeighLine, order = 0): FigureMap {
  const posterior = model.blades[blade]!;
  const scratch = new Float64Array(posterior.mean.length);
  const places = grid.us.map((u) => placeAcross(model, u, order));
  const valuesMm = new Float64Array(grid.ysMm.length * grid.us.length);
  const uMm = new Float64Array(valuesMm.length);
  grid.ysMm.forEach((y, row) => {
    const rows = Array.from({ length: model.across.count }, (_, column) => {
      weigh(scratch, y, column);
      return takeSparse(scratch);
    });
    const { values, covariance } = lineAcross(model, posterior, rows);
    places.forEach((place, column) => {
      const at = row * grid.us.length + column;
      valuesMm[at] = sparseDot(place, values);
      uMm[at] = Math.sqrt(Math.max(0, sparseBilinear(place, covariance, rows.length, place)));
    });
  });
  return { ...grid, valuesMm, uMm };
}

/** Values of the coefficients of a line across, and their covariance, row by row. */
function lineAcross(
  model: ReedModel,
  { mean, covariance, loadings }: BladePosterior,
  rows: readonly SparseWeights[],
): { values: Float64Array; covariance: Float64Array } {
  const count = rows.length;
  const shared = Math.sqrt(model.sharedCovariance.length);
  const loads = rows.map((row) => sparseTimes(row, loadings, shared));
  const joint = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    const moved = multiply(model.sharedCovariance, shared, loads[i]!);
    for (let j = 0; j <= i; j++) {
      const sum = sparseBilinear(rows[i]!, covariance, mean.length, rows[j]!) + dot(loads[j]!, moved);
      joint[i * count + j] = sum;
      joint[j * count + i] = sum;
    }
  }
  return { values: Float64Array.from(rows, (row) => sparseDot(row, mean)), covariance: joint };
}

/** The four coefficients that act at a place across. */
function placeAcross({ across }: ReedModel, u: number, order: number): SparseWeights {
  const { first, weights } = basisAt(across, u, order);
  return { index: weights.map((_, k) => first + k), weight: weights };
}

/** Thickness of a blade after a pass. */
export function thicknessMap(model: ReedModel, blade: Blade, pass: number, grid: MapGrid): FigureMap {
  const weigh: WeighLine = (target, fromTipMm, column) =>
    model.addLineWeights(target, { blade, pass, fromTipMm }, column, 1);
  return mapOf(model, blade, grid, weigh);
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
  const weigh: WeighLine = (target, fromTipMm, column) =>
    model.addLineWeights(target, { ...line, fromTipMm }, column, 1);
  if (direction === 'along') return mapOf(model, blade, grid, weigh);
  const byU = mapOf(model, blade, grid, weigh, 1);
  const halfWidths = grid.ysMm.map(model.passes[pass]!.halfWidthMm);
  const perMm = (values: Float64Array) =>
    values.map((value, k) => value / halfWidths[Math.floor(k / grid.us.length)]!);
  return { ...byU, valuesMm: perMm(byU.valuesMm), uMm: perMm(byU.uMm) };
}

/** What was taken off between two passes, at places on the later one's blade. */
export function removedMap(
  model: ReedModel,
  blade: Blade,
  before: number,
  after: number,
  grid: MapGrid,
): FigureMap {
  const clippedMm = model.passes[before]!.overallLengthMm - model.passes[after]!.overallLengthMm;
  const weigh: WeighLine = (target, fromTipMm, column) => {
    model.addLineWeights(target, { blade, pass: before, fromTipMm: fromTipMm + clippedMm }, column, 1);
    model.addLineWeights(target, { blade, pass: after, fromTipMm }, column, -1);
  };
  return mapOf(model, blade, grid, weigh);
}

/** Each place less its mirror place on the same blade. */
export function mirroredMap(model: ReedModel, blade: Blade, pass: number, grid: MapGrid): FigureMap {
  const { count } = model.across;
  const weigh: WeighLine = (target, fromTipMm, column) => {
    model.addLineWeights(target, { blade, pass, fromTipMm }, column, 1);
    model.addLineWeights(target, { blade, pass, fromTipMm }, count - 1 - column, -1);
  };
  return mapOf(model, blade, grid, weigh);
}

/** A map's figure at any place on it; beyond its edge, as at the edge. */
export function onMap(map: FigureMap, fromTipMm: number, across: number): Estimate {
  return {
    valueMm: between(map, map.valuesMm, fromTipMm, across),
    uMm: between(map, map.uMm, fromTipMm, across),
  };
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
function shareBetween(places: readonly number[], x: number): readonly [index: number, share: number] {
  const next = places.findIndex((place) => place > x);
  const index = Math.max(0, (next === -1 ? places.length - 1 : next) - 1);
  const share = (x - places[index]!) / (places[index + 1]! - places[index]!);
  return [index, Math.min(1, Math.max(0, share))];
}

/** One map less another, of two reeds or blades whose doubts have nothing in common. */
export function mapDifference(map: FigureMap, other: FigureMap): FigureMap {
  return {
    ysMm: map.ysMm,
    us: map.us,
    valuesMm: map.valuesMm.map((value, i) => value - other.valuesMm[i]!),
    uMm: map.uMm.map((u, i) => Math.hypot(u, other.uMm[i]!)),
  };
}

/** The same map seen from the facing blade: left and right exchanged. */
export function facingMap(map: FigureMap): FigureMap {
  const columns = map.us.length;
  const turned = (values: Float64Array) =>
    values.map((_, i) => values[i - (i % columns) + columns - 1 - (i % columns)]!);
  return { ...map, valuesMm: turned(map.valuesMm), uMm: turned(map.uMm) };
}
