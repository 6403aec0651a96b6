import { cholesky, inverseFromCholesky, solveCholesky } from '../numerics/cholesky.ts';
import { multiply } from '../numerics/quadratic-form.ts';
import { sparseDot, type SparseWeights } from '../numerics/sparse-row.ts';
import { rowsTimes, rowTimes, sparseRows } from '../numerics/sparse-rows.ts';
import { basePrior } from '../surface/base-prior.ts';
import { baseRow, baseSpace, type BaseSpace } from '../surface/base-surface.ts';
import type { Station } from '../surface/learned-prior.ts';
import { PRIOR_MEAN_MM, type Roughness } from '../surface/roughness-evidence.ts';

/** Where surfaces of a family are worked out: its ridge, its roughness, and the distance from the tip that it reaches. */
export interface FamilyFrame {
  readonly ridgeFromTipMm: number;
  /** mm per mm. */
  readonly rise: number;
  readonly logPrecisions: Roughness['logPrecisions'];
  readonly lengthMm: number;
}

/** How a surface leans at a place: by the distance from the tip, mm per mm, and by u, mm. */
export interface Lean {
  readonly along: number;
  readonly across: number;
}

/** Values at m stations and the surface between them, under the usual prior. */
export interface Stations {
  readonly places: readonly Station[];
  /** Precision of the values before any reading, m x m. */
  readonly usualPrecision: Float64Array;
  readonly usualCovariance: Float64Array;
  /** n x n, and H Pi: m rows of n. */
  readonly coefficients: Float64Array;
  readonly through: Float64Array;
  readonly space: BaseSpace;
}

const WARP = { widthMm: 1.6, strength: 6 };
/** Keeps stations so near to each other that one tells the other from making a factor singular, mm2. */
const JITTER_MM2 = 1e-9;

export function familySpace({
  ridgeFromTipMm,
  lengthMm,
}: Pick<FamilyFrame, 'ridgeFromTipMm' | 'lengthMm'>): BaseSpace {
  return baseSpace({ ridgeMm: -ridgeFromTipMm, ...WARP }, -lengthMm, 0);
}

export function stationsIn(frame: FamilyFrame, places: readonly Station[]): Stations {
  const space = familySpace(frame);
  const { covariance } = basePrior(space, frame, frame.rise);
  const n = Math.sqrt(covariance.length);
  const m = places.length;
  const rows = sparseRows(places.map(({ fromTipMm, across }) => baseRow(space, -fromTipMm, across)));
  const through = rowsTimes(rows, covariance, n);
  const usualCovariance = new Float64Array(m * m);
  for (let i = 0; i < m; i++)
    for (let j = 0; j < m; j++)
      usualCovariance[i * m + j] = rowTimes(rows, j, through, i * n) + (i === j ? JITTER_MM2 : 0);
  const usualPrecision = inverseFromCholesky(cholesky(usualCovariance, m), m);
  return { places, usualPrecision, usualCovariance, coefficients: covariance, through, space };
}

/** Weights of the stations' values for any place, and the variance that they leave open there, mm2. */
export function toldAt(
  stations: Stations,
  place: Station,
): { readonly row: SparseWeights; readonly openMm2: number } {
  const known = stations.places.findIndex((station) => placeKey(station) === placeKey(place));
  if (known >= 0) return { row: { index: [known], weight: [1] }, openMm2: 0 };
  const { space, through, usualPrecision, coefficients, places } = stations;
  const n = Math.sqrt(coefficients.length);
  const h = baseRow(space, -place.fromTipMm, place.across);
  const cross = Float64Array.from(places, (_, i) => sparseDot(h, through, i * n));
  const weight = multiply(usualPrecision, places.length, cross);
  const variance = rowTimes(sparseRows([h]), 0, rowsTimes(sparseRows([h]), coefficients, n));
  const told = weight.reduce((sum, w, i) => sum + w * cross[i]!, 0);
  return {
    row: { index: Array.from(weight.keys()), weight: Array.from(weight) },
    openMm2: Math.max(0, variance - told),
  };
}

/** How the surface through values at the stations leans at each of them. */
export function leansOf(
  { places, through, usualPrecision, space }: Stations,
  valuesMm: Float64Array,
): Lean[] {
  const m = places.length;
  const pull = multiply(
    usualPrecision,
    m,
    valuesMm.map((value) => value - PRIOR_MEAN_MM),
  );
  const n = through.length / m;
  const theta = new Float64Array(n);
  pull.forEach((weight, i) => {
    for (let k = 0; k < n; k++) theta[k]! += weight * through[i * n + k]!;
  });
  return places.map(({ fromTipMm, across }) => ({
    along: -sparseDot(baseRow(space, -fromTipMm, across, 1, 0), theta),
    across: sparseDot(baseRow(space, -fromTipMm, across, 0, 1), theta),
  }));
}

/** The same place to a hundredth of a millimetre and of a half-width. */
export const placeKey = ({ fromTipMm, across }: Station) =>
  `${Math.round(fromTipMm * 100)} ${Math.round(across * 100)}`;

/** Solves for the values' mean from what readings pull and how precisely, the usual prior about it. */
export function towards(
  { usualPrecision }: Stations,
  fromMm: Float64Array,
  pull: Float64Array,
  precision: Float64Array,
): { readonly meanMm: Float64Array; readonly covariance: Float64Array } {
  const m = fromMm.length;
  const factor = cholesky(
    precision.map((value, k) => value + usualPrecision[k]!),
    m,
  );
  const usualPull = multiply(
    usualPrecision,
    m,
    fromMm.map((value) => PRIOR_MEAN_MM - value),
  );
  const step = solveCholesky(
    factor,
    m,
    pull.map((value, k) => value + usualPull[k]!),
  );
  return { meanMm: fromMm.map((value, k) => value + step[k]!), covariance: inverseFromCholesky(factor, m) };
}
