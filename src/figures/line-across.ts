import { dot } from '../numerics/quadratic-form.ts';
import { timesMatrix } from '../numerics/row-products.ts';
import { sparseBilinear, sparseDot, sparseTimes, type SparseWeights } from '../numerics/sparse-row.ts';
import { basisAt } from '../numerics/uniform-b-spline.ts';
import type { BladePosterior, ReedModel } from '../surface/reed-model.ts';

/** A figure along a line across a blade: weights of its spline's coefficients. */
export type LineRows = readonly SparseWeights[];

/** The same at a distance from the tip. */
export type WeighLine = (fromTipMm: number) => LineRows;

/** The same with how the coefficients move, and go, with the shared errors. */
export interface LineAcross {
  readonly rows: LineRows;
  readonly loads: readonly Float64Array[];
  /** Covariances with the shared errors. */
  readonly withShared: readonly Float64Array[];
}

export function lineAcross(model: ReedModel, posterior: BladePosterior, rows: LineRows): LineAcross {
  const shared = Math.sqrt(model.sharedCovariance.length);
  const going = goingWithShared(model, posterior);
  return {
    rows,
    loads: rows.map((row) => sparseTimes(row, posterior.loadings, shared)),
    withShared: rows.map((row) => sparseTimes(row, going, shared)),
  };
}

/** A map asks for the same at each of its lines: it is worked out once. */
const going = new WeakMap<BladePosterior, { readonly of: Float64Array; readonly product: Float64Array }>();

/** Covariance of a surface's coefficients with the shared errors, as far as these make it: n x k. */
function goingWithShared({ sharedCovariance }: ReedModel, posterior: BladePosterior): Float64Array {
  const known = going.get(posterior);
  if (known?.of === sharedCovariance) return known.product;
  const { loadings: values, mean } = posterior;
  const shared = Math.sqrt(sharedCovariance.length);
  const rows = { values, rows: mean.length, columns: shared, stride: shared };
  const product = shared > 0 ? timesMatrix(rows, sharedCovariance) : values;
  going.set(posterior, { of: sharedCovariance, product });
  return product;
}

/** Values of a line's coefficients. */
export function lineValues(rows: LineRows, { mean }: BladePosterior): Float64Array {
  return Float64Array.from(rows, (row) => sparseDot(row, mean));
}

/** Covariance of one line's coefficients with another's, row by row. */
export function lineCovariance(
  { covariance, mean }: BladePosterior,
  line: LineAcross,
  other: LineAcross,
): Float64Array {
  const count = line.rows.length;
  const joint = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < (line === other ? i + 1 : count); j++) {
      const own = sparseBilinear(line.rows[i]!, covariance, mean.length, other.rows[j]!);
      joint[i * count + j] = own + dot(other.loads[j]!, line.withShared[i]!);
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
