import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { studentCoverageFactor } from '../numerics/student-quantile.ts';
import type { LearnedPrior } from '../surface/learned-prior.ts';
import { SUPPOSED_REEDS, type LearnedFamily } from './learn.ts';

/** What is expected of the next reed: the family with the doubt that it is known from few reeds. Plain data. */
export interface Predictive extends LearnedFamily {
  /** Reeds and blades that the covariances rest on, supposed ones among them. */
  readonly dof: number;
}

const NORMAL_95 = 1.959964;
/**
 * The predictive distribution of the next reed, as a normal one that covers 95 % where the Student t does: the mean's own
 * doubt belongs to what both blades do alike, and covariances are wider by how few reeds they are known from.
 *
 * Source: Gelman et al., Bayesian Data Analysis, 3rd edition, section 3.6, for the t of a normal with unknown covariance,
 * from memory.
 *
 * @param strayed How much more than expected the family's own reeds stray when they are left out, in variance; 1 or more.
 */
export function predictiveOf(family: LearnedFamily, strayed = 1): Predictive {
  const dof = SUPPOSED_REEDS.common + family.reeds - 1;
  const ownDof = SUPPOSED_REEDS.own + 2 * family.reeds;
  const wider = (n: number) => strayed * (studentCoverageFactor(0.95, n) / NORMAL_95) ** 2;
  const [commonWider, ownWider] = [wider(dof), wider(ownDof)];
  return {
    ...family,
    dof: dof + ownDof,
    common: family.common.map((value, k) => commonWider * value + family.meanCovariance[k]!),
    own: family.own.map((value) => ownWider * value),
  };
}

/** Of what both blades do alike so much is told apart; the rest counts as each blade's own. */
const KEPT_SHARE = 0.995;
const MOST_UNKNOWNS = 24;

/**
 * What is expected of the next reed as the prior of a fit.
 *
 * @param knife Where the maker's knife usually goes, by station.
 */
export function priorOf(predictive: Predictive, knife?: Float64Array): LearnedPrior {
  const { stations, meanMm, frame, placementMm, reeds } = predictive;
  const m = meanMm.length;
  const { realEigenvalues, eigenvectorMatrix: vectors } = new EigenvalueDecomposition(
    Matrix.from1DArray(m, m, predictive.common),
    { assumeSymmetric: true },
  );
  const ways = realEigenvalues
    .map((variance, k) => ({ variance: Math.max(0, variance), k }))
    .sort((a, b) => b.variance - a.variance);
  const r = keptOf(ways.map(({ variance }) => variance));
  const common = new Float64Array(m * r);
  ways.slice(0, r).forEach(({ variance, k }, c) => {
    for (let i = 0; i < m; i++) common[i * r + c] = Math.sqrt(variance) * vectors.get(i, k);
  });
  const own = predictive.own.slice();
  for (const { variance, k } of ways.slice(r))
    for (let i = 0; i < m; i++)
      for (let j = 0; j < m; j++) own[i * m + j]! += variance * vectors.get(i, k) * vectors.get(j, k);
  const { logPrecisions, rise, ridgeFromTipMm } = frame;
  return {
    ...{ stations, meanMm, common, own, logPrecisions, rise, ridgeFromTipMm, placementMm, reeds },
    ...(knife && { knife }),
  };
}

/** @param variances Falling. */
function keptOf(variances: readonly number[]): number {
  const total = variances.reduce((sum, one) => sum + one, 0);
  let [sum, count] = [0, 0];
  while (count < MOST_UNKNOWNS && sum < KEPT_SHARE * total) sum += variances[count++]!;
  return count;
}
