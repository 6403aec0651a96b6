import type { Blade } from '../../shared/blade.ts';
import { dot } from '../numerics/quadratic-form.ts';
import type { ReedModel } from '../surface/reed-model.ts';

/** Places at which a map is evaluated: every distance with every position across. */
export interface MapGrid {
  /** mm from the tip. */
  readonly ysMm: readonly number[];
  readonly us: readonly number[];
}

/** Values of a figure over a blade, row by row along, with their standard uncertainties. */
export interface FigureMap extends MapGrid {
  readonly valuesMm: Float64Array;
  readonly uMm: Float64Array;
}

/** Adds the weights of the figure at one place to an empty vector. */
type Weigh = (target: Float64Array, fromTipMm: number, across: number) => void;

/** Even grid over a blade of this length. */
export function mapGrid(bladeLengthMm: number, along: number, across: number): MapGrid {
  return {
    ysMm: Array.from({ length: along }, (_, i) => (bladeLengthMm * i) / (along - 1)),
    us: Array.from({ length: across }, (_, j) => -1 + (2 * j) / (across - 1)),
  };
}

/** A figure of one blade over a grid of places. */
export function mapOf(model: ReedModel, blade: Blade, grid: MapGrid, weigh: Weigh): FigureMap {
  const posterior = model.blades[blade]!;
  const shared = Math.sqrt(model.sharedCovariance.length);
  const n = posterior.mean.length;
  const weights = new Float64Array(n);
  const active = new Int32Array(n);
  const load = new Float64Array(shared);
  const valuesMm = new Float64Array(grid.ysMm.length * grid.us.length);
  const uMm = new Float64Array(valuesMm.length);
  grid.ysMm.forEach((y, row) =>
    grid.us.forEach((u, column) => {
      weights.fill(0);
      weigh(weights, y, u);
      let count = 0;
      for (let i = 0; i < n; i++) if (weights[i] !== 0) active[count++] = i;
      let value = 0;
      let variance = 0;
      load.fill(0);
      for (let a = 0; a < count; a++) {
        const i = active[a]!;
        const wi = weights[i]!;
        value += wi * posterior.mean[i]!;
        for (let j = 0; j < shared; j++) load[j]! += wi * posterior.loadings[i * shared + j]!;
        const from = i * n;
        let half = (wi * posterior.covariance[from + i]!) / 2;
        for (let b = 0; b < a; b++) half += weights[active[b]!]! * posterior.covariance[from + active[b]!]!;
        variance += 2 * wi * half;
      }
      for (let j = 0; j < shared; j++) {
        variance += load[j]! * dot(load, model.sharedCovariance.subarray(j * shared, (j + 1) * shared));
      }
      const at = row * grid.us.length + column;
      valuesMm[at] = value;
      uMm[at] = Math.sqrt(Math.max(0, variance));
    }),
  );
  return { ...grid, valuesMm, uMm };
}

/** Thickness of a blade after a pass. */
export function thicknessMap(model: ReedModel, blade: Blade, pass: number, grid: MapGrid): FigureMap {
  return mapOf(model, blade, grid, (target, fromTipMm, across) =>
    model.addWeights(target, { blade, pass, fromTipMm, across }, 1),
  );
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
  return mapOf(model, blade, grid, (target, fromTipMm, across) => {
    model.addWeights(target, { blade, pass: before, fromTipMm: fromTipMm + clippedMm, across }, 1);
    model.addWeights(target, { blade, pass: after, fromTipMm, across }, -1);
  });
}

/** Each place less its mirror place on the same blade. */
export function mirroredMap(model: ReedModel, blade: Blade, pass: number, grid: MapGrid): FigureMap {
  return mapOf(model, blade, grid, (target, fromTipMm, across) => {
    model.addWeights(target, { blade, pass, fromTipMm, across }, 1);
    model.addWeights(target, { blade, pass, fromTipMm, across: -across }, -1);
  });
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
