import { InputError } from '../../shared/errors.ts';
import { splineSpace, splineWeights, type SplineEnds } from '../numerics/cubic-spline.ts';

/** Values on a full grid of distances and positions. */
export interface FullGrid {
  /** Rising distances, 2 or more. */
  readonly ys: readonly number[];
  /** Rising positions, 2 or more. */
  readonly us: readonly number[];
  /** One row per distance, one value per position. */
  readonly values: readonly (readonly number[])[];
}

/** The surface or one of its partial derivatives at a place. */
export type InterpolatingSurface = (y: number, u: number, dy?: number, du?: number) => number;

/**
 * The second mode beside smoothing: a tensor cubic through every reading of a full grid. It believes the readings to
 * the last digit, noise and all, and so has no uncertainty of its own.
 *
 * @throws InputError for rows that do not match the grid or values that are not finite.
 */
export function interpolateGrid({ ys, us, values }: FullGrid, ends: SplineEnds): InterpolatingSurface {
  if (values.length !== ys.length)
    throw new InputError(`values: must have ${ys.length} rows, got ${values.length}`);
  values.forEach((row, i) => {
    if (row.length !== us.length || !row.every(Number.isFinite)) {
      throw new InputError(`values[${i}]: must hold ${us.length} finite values`);
    }
  });
  const along = splineSpace(ys, ends);
  const across = splineSpace(us, ends);
  return (y, u, dy = 0, du = 0) => {
    const a = splineWeights(along, y, dy);
    const b = splineWeights(across, u, du);
    return values.reduce(
      (sum, row, i) => sum + a[i]! * row.reduce((part, value, j) => part + b[j]! * value, 0),
      0,
    );
  };
}
