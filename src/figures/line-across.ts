import { dot, multiply } from '../numerics/quadratic-form.ts';
import {
  sparseBilinear,
  sparseDot,
  sparseTimes,
  takeSparse,
  type SparseWeights,
} from '../numerics/sparse-row.ts';
import { basisAt } from '../numerics/uniform-b-spline.ts';
import type { BladePosterior, ReedModel } from '../surface/reed-model.ts';

/** Adds the weights of one coefficient of a figure as a spline across at a distance from the tip. */
export type WeighLine = (target: Float64Array, fromTipMm: number, column: number) => void;

/** A figure along a line across a blade: weights of its spline's coefficients, and how these move with the shared errors. */
export interface LineAcross {
  readonly rows: readonly SparseWeights[];
  readonly loads: readonly Float64Array[];
}

const NOTHING: SparseWeights = { index: [], weight: [] };

/** @param used Columns that any place asks for; the others are left out. */
export function lineAcross(
  model: ReedModel,
  { mean, loadings }: BladePosterior,
  weigh: WeighLine,
  fromTipMm: number,
  used: ReadonlySet<number>,
): LineAcross {
  const scratch = new Float64Array(mean.length);
  const shared = Math.sqrt(model.sharedCovariance.length);
  const rows = Array.from({ length: model.across.count }, (_, column) => {
    if (!used.has(column)) return NOTHING;
    weigh(scratch, fromTipMm, column);
    return takeSparse(scratch);
  });
  return { rows, loads: rows.map((row) => sparseTimes(row, loadings, shared)) };
}

/** Values of a line's coefficients. */
export function lineValues({ rows }: LineAcross, { mean }: BladePosterior): Float64Array {
  return Float64Array.from(rows, (row) => sparseDot(row, mean));
}

/** Covariance of one line's coefficients with another's, row by row. */
export function lineCovariance(
  { sharedCovariance }: ReedModel,
  { covariance, mean }: BladePosterior,
  line: LineAcross,
  other: LineAcross,
): Float64Array {
  const count = line.rows.length;
  const shared = Math.sqrt(sharedCovariance.length);
  const joint = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    const moved = multiply(sharedCovariance, shared, line.loads[i]!);
    for (let j = 0; j < (line === other ? i + 1 : count); j++) {
      const own = sparseBilinear(line.rows[i]!, covariance, mean.length, other.rows[j]!);
      joint[i * count + j] = own + dot(other.loads[j]!, moved);
      if (line === other) joint[j * count + i] = joint[i * count + j]!;
    }
  }
  return joint;
}

/** The four coefficients that act at a place across, or in a derivative by u there. */
export function placeAcross({ across }: ReedModel, u: number, order: number): SparseWeights {
  const { first, weights } = basisAt(across, u, order);
  return { index: weights.map((_, k) => first + k), weight: weights };
}
