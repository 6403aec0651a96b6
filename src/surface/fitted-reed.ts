import type { Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { cholesky, inverseFromCholesky, solveCholesky } from '../numerics/cholesky.ts';
import { multiply } from '../numerics/quadratic-form.ts';
import { addLayoutLine, addLayoutWeights, type BladeLayout } from './blade-layout.ts';
import { ACROSS_BASIS } from './base-surface.ts';
import type { BladeEvidence } from './joint-blade.ts';
import type { NoiseModel } from '../gauge/reading-noise.ts';
import {
  ordersOf,
  type BladePosterior,
  type NoiseSource,
  type PassGeometry,
  type ReedModel,
  type SurfacePlace,
} from './reed-model.ts';
import type { SharedError } from './shared-errors.ts';

/** A fitted reed with what it takes to add one more reading. */
export interface FittedReed extends ReedModel {
  readonly layouts: Readonly<Partial<Record<Blade, BladeLayout>>>;
  /** Likeliest values of the shared errors, three for each pass. */
  readonly sharedMean: Float64Array;
  /** The shared errors themselves. */
  readonly errors: readonly SharedError[];
  readonly noise: NoiseModel;
}

/** Puts the blades together: what both say of the shared errors moves both. */
export function assembleModel(
  passes: readonly PassGeometry[],
  evidence: Readonly<Partial<Record<Blade, BladeEvidence>>>,
  errors: readonly SharedError[],
  noise: NoiseModel,
  noiseFrom: NoiseSource,
): FittedReed {
  const variances = Float64Array.from(errors, ({ variance }) => variance);
  const shared = sharedPosterior(Object.values(evidence), variances);
  const blades: Partial<Record<Blade, BladePosterior>> = {};
  const layouts: Partial<Record<Blade, BladeLayout>> = {};
  for (const [blade, { layout, mean, covariance, loadings }] of bladeEntries(evidence)) {
    const moved = multiply(loadings, variances.length, shared.mean);
    blades[blade] = { mean: mean.map((value, m) => value + moved[m]!), covariance, loadings };
    layouts[blade] = layout;
  }
  return fittedReed({
    passes,
    blades,
    layouts,
    errors,
    sharedMean: shared.mean,
    sharedCovariance: shared.covariance,
    noise,
    noiseFrom,
  });
}

/** The model with its figures' weights, from its parts. */
export function fittedReed(
  parts: Omit<FittedReed, 'noiseMm' | 'addWeights' | 'across' | 'addLineWeights'>,
): FittedReed {
  const { passes, layouts, blades, noise } = parts;
  const noiseMm: Partial<Record<Blade, number>> = {};
  for (const [blade] of bladeEntries(blades)) noiseMm[blade] = noise.seatingMm;
  return {
    ...parts,
    noiseMm,
    addWeights(target, { blade, pass, fromTipMm, across, derivative }: SurfacePlace, factor) {
      const layout = layouts[blade];
      if (!layout) throw new InputError(`blade: ${blade} was never read`);
      const zMm = passes[pass]!.overallLengthMm - fromTipMm;
      const { along: dz, across: du } = ordersOf(derivative);
      // z runs against the distance from the tip.
      addLayoutWeights(target, layout, pass, zMm, across, { dz, du }, dz === 1 ? -factor : factor);
    },
    across: ACROSS_BASIS,
    addLineWeights(target, { blade, pass, fromTipMm, derivative }, column, factor) {
      const layout = layouts[blade];
      if (!layout) throw new InputError(`blade: ${blade} was never read`);
      const line = { zMm: passes[pass]!.overallLengthMm - fromTipMm, dz: derivative ? 1 : 0 } as const;
      addLayoutLine(target, layout, pass, line, column, derivative ? -factor : factor);
    },
  };
}

export function bladeEntries<T>(record: Readonly<Partial<Record<Blade, T>>>): [Blade, T][] {
  return Object.entries(record) as [Blade, T][];
}

function sharedPosterior(evidence: readonly BladeEvidence[], variances: Float64Array) {
  const s = variances.length;
  const precision = new Float64Array(s * s);
  const pull = new Float64Array(s);
  // A shared error without variance is none: a huge precision holds it at zero.
  for (let m = 0; m < s; m++) precision[m * s + m] = variances[m]! > 0 ? 1 / variances[m]! : 1e18;
  for (const { sharedPrecision, sharedPull } of evidence) {
    for (let m = 0; m < s * s; m++) precision[m]! += sharedPrecision[m]!;
    for (let m = 0; m < s; m++) pull[m]! += sharedPull[m]!;
  }
  const factor = cholesky(precision, s);
  return { mean: solveCholesky(factor, s, pull), covariance: inverseFromCholesky(factor, s) };
}
