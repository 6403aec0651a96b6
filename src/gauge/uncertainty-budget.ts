import { InputError } from '../../shared/errors.ts';
import { studentCoverageFactor } from '../numerics/student-quantile.ts';

/** One entry of an uncertainty budget. */
export interface Contribution {
  readonly name: string;
  /** Standard uncertainty of the input, times its sensitivity: in the unit of the result. */
  readonly u: number;
  /** Degrees of freedom behind `u`; absent where it is known as it stands. */
  readonly dof?: number;
}

export interface CombinedUncertainty {
  readonly u: number;
  /** Effective degrees of freedom before truncation; Infinity where nothing was estimated. */
  readonly effectiveDof: number;
  /** Factor from `u` to the expanded uncertainty. */
  readonly coverageFactor: number;
  readonly expanded: number;
}

/** Standard uncertainty of a value known to a step of d: rectangular over d. Source: JCGM 100:2008, F.2.2.1. */
export function resolutionU(step: number): number {
  return step / Math.sqrt(12);
}

/**
 * Independent contributions combined: root of the sum of squares, effective degrees of freedom by Welch-Satterthwaite,
 * truncated to a whole number before the t factor.
 *
 * Source: JCGM 100:2008, 5.1.2 and G.4.1.
 *
 * @param coverage Probability that the expanded uncertainty shall cover.
 * @throws InputError for a negative contribution, or effective degrees of freedom below 1.
 */
export function combine(contributions: readonly Contribution[], coverage = 0.95): CombinedUncertainty {
  contributions.forEach(({ u }, i) => {
    if (!(u >= 0)) throw new InputError(`contributions[${i}].u: must be 0 or more, got ${u}`);
  });
  const u = Math.hypot(...contributions.map((contribution) => contribution.u));
  const spread = contributions.reduce(
    (sum, { u: ui, dof }) => sum + (dof === undefined ? 0 : ui ** 4 / dof),
    0,
  );
  const effectiveDof = spread > 0 ? u ** 4 / spread : Infinity;
  // A sum that rounding alone pushes below a whole number is that number.
  const dof = Math.floor(effectiveDof * (1 + 1e-12));
  if (!(dof >= 1)) throw new InputError(`contributions: must leave 1 degree of freedom, got ${effectiveDof}`);
  const coverageFactor = studentCoverageFactor(coverage, dof);
  return { u, effectiveDof, coverageFactor, expanded: coverageFactor * u };
}
