import { BLADES, type Place } from '../../shared/blade.ts';
import { pointFunctional, together, valueMm } from '../figures/functional.ts';
import { readingVariance } from '../gauge/reading-noise.ts';
import { dot, symmetricTimes } from '../numerics/quadratic-form.ts';
import type { FitPass, FitReading, Functional } from '../surface/reed-model.ts';
import type { ReedPosterior } from '../surface/reed-posterior.ts';
import { effectsOn } from '../surface/shared-errors.ts';
import type { Knowing } from '../family/choose-places.ts';

/** A reading that weighs nothing makes room for a pass on both blades. */
const WEIGHTLESS: Omit<FitReading, 'blade'> = {
  ...{ fromTipMm: 5, across: 0, thicknessMm: 0.3, repeats: 1, noiseFactor: 1e4 },
};

/** A pass before its first reading, as it may be fitted. */
export function barelyRead<P extends FitPass>(pass: P): P {
  return { ...pass, readings: BLADES.map((blade) => ({ blade, ...WEIGHTLESS })) };
}

/**
 * What a fit knows of places of its last pass, and of figures, where nothing weighs in that pass.
 *
 * @param shown What the gauge of the pass shows of a thickness.
 */
export function knowingOf(
  model: ReedPosterior,
  places: readonly Place[],
  asked: readonly Functional[],
  shown: (thicknessMm: number) => number = (mm) => mm,
): Knowing {
  const [n, t, pass] = [places.length, asked.length, model.passes.length - 1];
  const at = places.map((place) => placeOf(model, pass, place));
  const { valuesMm, own, loads } = together(model, [...at.map(({ point }) => point), ...asked]);
  at.forEach(({ effects }, i) => effects.forEach((effect, m) => (loads[i]![m]! += effect)));
  const moved = loads.map((load) => symmetricTimes(model.sharedCovariance, load));
  const covariance = (i: number, j: number) => own[i * (n + t) + j]! + dot(loads[j]!, moved[i]!);
  const block = (from: number, rows: number) =>
    Float64Array.from({ length: rows * n }, (_, k) => covariance(from + Math.floor(k / n), k % n));
  return {
    meanMm: valuesMm.slice(0, n).map(shown),
    covariance: block(0, n),
    noiseMm2: Float64Array.from(at, ({ noiseMm2 }) => noiseMm2),
    asked: block(n, t),
    askedMm2: Float64Array.from({ length: t }, (_, k) => covariance(n + k, n + k)),
  };
}

/** A place as a reading of the pass finds it: its surface, what it shares with others, and what it adds by itself. */
function placeOf(model: ReedPosterior, pass: number, { blade, fromTipMm, across }: Place) {
  const place = { blade, pass, fromTipMm, across };
  const point = pointFunctional(model, place);
  const slope = (derivative: 'along' | 'across') =>
    valueMm(model, pointFunctional(model, { ...place, derivative }));
  const slopeAlong = -slope('along');
  const slopeAcross = slope('across') / model.passes[pass]!.halfWidthMm(fromTipMm);
  return {
    point,
    effects: effectsOn(model.errors, pass, { thicknessMm: valueMm(model, point), time: 0.5, slopeAlong }),
    noiseMm2: readingVariance(model.noise, slopeAlong, slopeAcross),
  };
}
