import { InputError } from '../../shared/errors.ts';
import { tensorPenalties } from '../numerics/difference-penalty.ts';
import { addSparse, type SparseWeights } from '../numerics/sparse-row.ts';
import { coefficientCount, designRow, type TensorBasis } from './tensor-basis.ts';

/** Values at places, each with a weight: the inverse of its variance up to a common factor. */
export interface SurfaceData {
  readonly y: ArrayLike<number>;
  readonly u: ArrayLike<number>;
  readonly t: ArrayLike<number>;
  readonly w?: ArrayLike<number>;
}

export interface Smoothing {
  readonly along: number;
  readonly across: number;
}

/** Dimension of the surfaces that no penalty touches: 1, y, u and y u. */
export const NULL_DIMENSION = 4;

/** What a fit needs that does not depend on the smoothing. */
export interface SurfaceProblem {
  readonly basis: TensorBasis;
  readonly n: number;
  readonly k: number;
  readonly rows: readonly SparseWeights[];
  readonly t: Float64Array;
  readonly w: Float64Array;
  readonly normal: Float64Array;
  readonly right: Float64Array;
  readonly sumLogW: number;
  readonly penalties: { along: Float64Array; across: Float64Array };
}

/**
 * Gathers the data into normal equations.
 *
 * @throws InputError for no data, values that are not finite, or weights that are not above 0.
 */
export function pose(data: SurfaceData, basis: TensorBasis): SurfaceProblem {
  const n = data.t.length;
  const k = coefficientCount(basis);
  if (n === 0) throw new InputError('data: must hold at least one value, got none');
  const rows = Array.from({ length: n }, (_, i) => designRow(basis, data.y[i]!, data.u[i]!));
  const t = Float64Array.from(data.t);
  const w = data.w ? Float64Array.from(data.w) : new Float64Array(n).fill(1);
  const normal = new Float64Array(k * k);
  const right = new Float64Array(k);
  let sumLogW = 0;
  for (let i = 0; i < n; i++) {
    if (!(Number.isFinite(t[i]) && w[i]! > 0))
      throw new InputError(`data[${i}]: must be finite with weight above 0`);
    addToNormal(normal, k, rows[i]!, w[i]!);
    addSparse(right, rows[i]!, w[i]! * t[i]!);
    sumLogW += Math.log(w[i]!);
  }
  for (let i = 0; i < k; i++) for (let j = 0; j < i; j++) normal[j * k + i] = normal[i * k + j]!;
  const penalties = tensorPenalties(basis.along.count, basis.across.count);
  return { basis, n, k, rows, t, w, normal, right, sumLogW, penalties };
}

/** Adds w r r' to the lower triangle, for a row r of rising index. */
function addToNormal(normal: Float64Array, k: number, { index, weight }: SparseWeights, w: number): void {
  for (let a = 0; a < index.length; a++) {
    const scaled = w * weight[a]!;
    const row = index[a]! * k;
    for (let b = 0; b <= a; b++) normal[row + index[b]!]! += scaled * weight[b]!;
  }
}
