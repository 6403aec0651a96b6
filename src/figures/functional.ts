import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { dot, quadratic, symmetricTimes } from '../numerics/quadratic-form.ts';
import type {
  Estimate,
  Functional,
  PassWeights,
  ReedModel,
  SurfacePlace,
  Together,
} from '../surface/reed-model.ts';

/**
 * Almost every figure is linear in the coefficients of a reed's surfaces: weights a with value a'x and variance a'Va, x
 * the surfaces after some passes. Figures are composed by adding weights, and their uncertainty follows without a second
 * formula.
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
  const sum: Partial<Record<Blade, Map<number, Float64Array>>> = {};
  for (const place of places) {
    checkOnBlade(model, place);
    const { blade, pass } = place;
    const onBlade = (sum[blade] ??= new Map<number, Float64Array>());
    const target = onBlade.get(pass) ?? emptyWeights(model, blade);
    model.addWeights(target, place, place.factor);
    onBlade.set(pass, target);
  }
  return functionalOf(sum);
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

function functionalOf(sums: Readonly<Partial<Record<Blade, ReadonlyMap<number, Float64Array>>>>): Functional {
  const functional: Partial<Record<Blade, PassWeights[]>> = {};
  for (const blade of BLADES) {
    const own = sums[blade];
    if (own) functional[blade] = [...own].map(([pass, weights]) => ({ pass, weights }));
  }
  return functional;
}

/** Sum of functionals of one reed, each times a factor. */
export function combine(terms: readonly (readonly [factor: number, functional: Functional])[]): Functional {
  const sums: Partial<Record<Blade, Map<number, Float64Array>>> = {};
  for (const [factor, functional] of terms)
    for (const blade of BLADES)
      for (const { pass, weights } of functional[blade] ?? []) {
        const onBlade = (sums[blade] ??= new Map<number, Float64Array>());
        const target = onBlade.get(pass) ?? new Float64Array(weights.length);
        for (let i = 0; i < weights.length; i++) target[i]! += factor * weights[i]!;
        onBlade.set(pass, target);
      }
  return functionalOf(sums);
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
  const { valuesMm, own: covariance, loads } = together(model, functionals);
  loads.forEach((load, i) => {
    const moved = symmetricTimes(model.sharedCovariance, load);
    loads.forEach((other, j) => (covariance[i * n + j]! += dot(other, moved)));
  });
  return { valuesMm, covariance };
}

/** Functionals over both blades, which have the shared errors alone in common. */
export function together(model: ReedModel, functionals: readonly Functional[]): Together {
  const blades = BLADES.filter(
    (blade) => model.blades[blade] && functionals.some((functional) => functional[blade]),
  );
  const shared = Math.sqrt(model.sharedCovariance.length);
  const sum: Together = {
    valuesMm: new Float64Array(functionals.length),
    own: new Float64Array(functionals.length ** 2),
    loads: functionals.map(() => new Float64Array(shared)),
  };
  for (const blade of blades) {
    const { valuesMm, own, loads } = model.together(
      blade,
      functionals.map((functional) => functional[blade] ?? []),
    );
    valuesMm.forEach((value, i) => (sum.valuesMm[i]! += value));
    own.forEach((value, k) => (sum.own[k]! += value));
    loads.forEach((load, i) => load.forEach((value, m) => (sum.loads[i]![m]! += value)));
  }
  return sum;
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
  let sum = 0;
  for (const blade of BLADES)
    for (const { pass, weights } of functional[blade] ?? [])
      sum += dot(weights, model.meanAfter(blade, pass));
  return sum;
}

/** Value and standard uncertainty of one functional. */
export function estimate(model: ReedModel, functional: Functional): Estimate {
  const { valuesMm, own, loads } = together(model, [functional]);
  const variance = own[0]! + quadratic(loads[0]!, model.sharedCovariance);
  return { valueMm: valuesMm[0]!, uMm: Math.sqrt(Math.max(0, variance)) };
}
