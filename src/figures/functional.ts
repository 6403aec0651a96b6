import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { addTransposedTimes, dot, quadratic, symmetricTimes } from '../numerics/quadratic-form.ts';
import { covarianceTimes, varianceOf } from '../surface/narrowed.ts';
import type { Estimate, Functional, ReedModel, SurfacePlace } from '../surface/reed-model.ts';

/**
 * Almost every figure is linear in the coefficients of a reed's surfaces: a weight vector a with value a'theta and
 * variance a'Va. Figures are composed by adding weights, and their uncertainty follows without a second formula.
 *
 * @throws InputError for a place outside the blade: nothing is said of what is not cane.
 */
export function pointFunctional(model: ReedModel, place: SurfacePlace): Functional {
  return sumOfPlaces(model, [{ ...place, factor: 1 }]);
}

/**
 * A weighted sum of places.
 *
 * @throws InputError for a place outside the blade.
 */
export function sumOfPlaces(
  model: ReedModel,
  places: Iterable<SurfacePlace & { readonly factor: number }>,
): Functional {
  const weights: Partial<Record<Blade, Float64Array>> = {};
  for (const place of places) {
    checkOnBlade(model, place);
    const target = (weights[place.blade] ??= emptyWeights(model, place.blade));
    model.addWeights(target, place, place.factor);
  }
  return weights;
}

/** Rounding of distances that were moved by clips, mm. A blade ends where any pass has its end on the cane. */
const EDGE_TOLERANCE_MM = 1e-6;

/** Distance from the tip of a pass at which the blade ends, mm. */
function endMm({ passes }: ReedModel, pass: number): number {
  const { overallLengthMm } = passes[pass]!;
  return Math.max(...passes.map((one) => overallLengthMm - one.overallLengthMm + one.bladeLengthMm));
}

/** Whether a place lies on the blade as it is after a pass. */
export function isOnBlade(
  model: ReedModel,
  { pass, fromTipMm, across }: Pick<SurfacePlace, 'pass' | 'fromTipMm' | 'across'>,
): boolean {
  const isAlong = fromTipMm >= -EDGE_TOLERANCE_MM && fromTipMm <= endMm(model, pass) + EDGE_TOLERANCE_MM;
  return isAlong && Math.abs(across) <= 1 + EDGE_TOLERANCE_MM;
}

function checkOnBlade(model: ReedModel, place: SurfacePlace): void {
  if (isOnBlade(model, place)) return;
  const { pass, fromTipMm, across } = place;
  throw new InputError(
    `place: must lie on the blade, 0 to ${endMm(model, pass)} mm from the tip and -1 to 1 across, got ${fromTipMm} mm, ${across}`,
  );
}

function emptyWeights(model: ReedModel, blade: Blade): Float64Array {
  return new Float64Array(model.blades[blade]?.mean.length ?? 0);
}

/** Sum of functionals of one reed, each times a factor. */
export function combine(terms: readonly (readonly [factor: number, functional: Functional])[]): Functional {
  const sum: Partial<Record<Blade, Float64Array>> = {};
  for (const [factor, functional] of terms) {
    for (const blade of BLADES) {
      const weights = functional[blade];
      if (!weights) continue;
      const target = (sum[blade] ??= new Float64Array(weights.length));
      for (let i = 0; i < weights.length; i++) target[i]! += factor * weights[i]!;
    }
  }
  return sum;
}

/** Values of several functionals of one reed with their joint covariance. */
export interface JointEstimate {
  readonly valuesMm: Float64Array;
  /** n x n, row by row, mm2. */
  readonly covariance: Float64Array;
}

/** Values and joint covariance of functionals of one reed, its shared errors included. */
export function estimateJointly(model: ReedModel, functionals: readonly Functional[]): JointEstimate {
  const n = functionals.length;
  const valuesMm = new Float64Array(n);
  const covariance = new Float64Array(n * n);
  const sharedCount = Math.sqrt(model.sharedCovariance.length);
  const loads = functionals.map(() => new Float64Array(sharedCount));
  for (const blade of BLADES) {
    const posterior = model.blades[blade];
    if (!posterior) continue;
    const products = functionals.map((functional) => {
      const weights = functional[blade];
      return weights && covarianceTimes(posterior, weights);
    });
    functionals.forEach((functional, i) => {
      const weights = functional[blade];
      if (!weights) return;
      valuesMm[i]! += dot(weights, posterior.mean);
      addTransposedTimes(loads[i]!, posterior.loadings, weights);
      products.forEach((product, j) => {
        if (product) covariance[i * n + j]! += dot(weights, product);
      });
    });
  }
  loads.forEach((load, i) => {
    const moved = symmetricTimes(model.sharedCovariance, load);
    loads.forEach((other, j) => (covariance[i * n + j]! += dot(other, moved)));
  });
  return { valuesMm, covariance };
}

/** A linear combination of jointly estimated values. */
export function combined({ valuesMm, covariance }: JointEstimate, factors: readonly number[]): Estimate {
  const n = valuesMm.length;
  let value = 0;
  let variance = 0;
  for (let i = 0; i < n; i++) {
    value += (factors[i] ?? 0) * valuesMm[i]!;
    for (let j = 0; j < n; j++) variance += (factors[i] ?? 0) * (factors[j] ?? 0) * covariance[i * n + j]!;
  }
  return { valueMm: value, uMm: Math.sqrt(Math.max(0, variance)) };
}

/** Value of one functional, where its uncertainty is not asked for. */
export function valueMm(model: ReedModel, functional: Functional): number {
  return BLADES.reduce((sum, blade) => {
    const weights = functional[blade];
    return weights ? sum + dot(weights, model.blades[blade]!.mean) : sum;
  }, 0);
}

/** Value and standard uncertainty of one functional. */
export function estimate(model: ReedModel, functional: Functional): Estimate {
  const load = new Float64Array(Math.sqrt(model.sharedCovariance.length));
  let variance = 0;
  for (const blade of BLADES) {
    const weights = functional[blade];
    const posterior = model.blades[blade];
    if (!weights || !posterior) continue;
    variance += varianceOf(posterior, weights);
    addTransposedTimes(load, posterior.loadings, weights);
  }
  variance += quadratic(load, model.sharedCovariance);
  return { valueMm: valueMm(model, functional), uMm: Math.sqrt(Math.max(0, variance)) };
}
