import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { InputError } from '../../shared/errors.ts';

/** The main ways in which a set of profiles varies about its mean. */
export interface PrincipalComponents {
  /** p values. */
  readonly mean: readonly number[];
  /** Unit-length directions of p values each, the widest first; the largest entry is positive. */
  readonly directions: readonly (readonly number[])[];
  /** Standard deviation along each direction, in the unit of the profiles times sqrt(weight). */
  readonly sd: readonly number[];
  /** Share of the whole variance. */
  readonly share: readonly number[];
  /** One row per profile: its place along each direction. */
  readonly scores: readonly (readonly number[])[];
}

/**
 * Principal components of profiles sampled at the same p places. With `weights` (the area that each place stands for)
 * these are the functional principal components of the surfaces.
 *
 * Source: singular value decomposition of the centred data; Ramsay & Silverman 2005, chapter 8, for the weights.
 *
 * @param profiles n >= 2 rows of p finite values.
 * @param weights p positive values, each 1 unless given.
 * @throws InputError for fewer than two profiles or rows of unequal length.
 */
export function principalComponents(
  profiles: readonly (readonly number[])[],
  weights: readonly number[] = profiles[0]?.map(() => 1) ?? [],
): PrincipalComponents {
  const n = profiles.length;
  const p = weights.length;
  if (n < 2) throw new InputError(`profiles: must be at least 2, got ${n}`);
  profiles.forEach((row, i) => {
    if (row.length !== p) throw new InputError(`profiles[${i}]: must hold ${p} values, got ${row.length}`);
  });
  const mean = weights.map((_, j) => profiles.reduce((total, row) => total + row[j]!, 0) / n);
  const roots = weights.map(Math.sqrt);
  const centred = profiles.map((row) => row.map((value, j) => (value - mean[j]!) * roots[j]!));
  const { leftSingularVectors, rightSingularVectors, diagonal } = new SingularValueDecomposition(
    new Matrix(centred),
    {
      autoTranspose: true,
    },
  );
  const kept = diagonal.slice(0, Math.min(n - 1, p));
  const total = kept.reduce((sum, s) => sum + s * s, 0);
  const signs = kept.map((_, k) => largestSign(rightSingularVectors.getColumn(k)));
  return {
    mean,
    directions: kept.map((_, k) =>
      rightSingularVectors.getColumn(k).map((v, j) => (signs[k]! * v) / roots[j]!),
    ),
    sd: kept.map((s) => s / Math.sqrt(n - 1)),
    share: kept.map((s) => (total > 0 ? (s * s) / total : 0)),
    scores: profiles.map((_, i) => kept.map((s, k) => signs[k]! * s * leftSingularVectors.get(i, k))),
  };
}

function largestSign(values: readonly number[]): 1 | -1 {
  const largest = values.reduce((best, value) => (Math.abs(value) > Math.abs(best) ? value : best), 0);
  return largest < 0 ? -1 : 1;
}
