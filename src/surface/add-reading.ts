import { BLADES, type Blade } from '../../shared/blade.ts';
import { addTransposedTimes, dot, multiply, supportOf } from '../numerics/quadratic-form.ts';
import { sparseRows } from '../numerics/sparse-rows.ts';
import type { Step } from './blade-state.ts';
import { baseCount } from './blade-layout.ts';
import { bladeEntries, fittedReed, passesRead, type ReedPosterior } from './reed-posterior.ts';
import { comparedVariance } from '../gauge/reading-noise.ts';
import { covarianceTimes, narrowedBy } from './narrowed.ts';
import type { BladePosterior, FitReading } from './reed-model.ts';
import { firstVariances, removalPrior } from './removal-space.ts';
import { effectsOn } from './shared-errors.ts';

/**
 * The model with one more reading, smoothing and noise held: one rank-one step, exact for a linear normal model.
 *
 * @param pass Place of the reading's pass in the model's list.
 * @returns undefined where only a new fit can take the reading: the first of a blade, or one of a pass that lies before
 *   the last that is read.
 */
export function addReading(
  model: ReedPosterior,
  pass: number,
  reading: FitReading,
): ReedPosterior | undefined {
  const { blade } = reading;
  const grown = withPass(model, blade, pass);
  if (!grown) return undefined;
  const posterior = grown.blades[blade]!;
  const place = { blade, pass, fromTipMm: reading.fromTipMm, across: reading.across };
  const row = new Float64Array(posterior.mean.length);
  grown.addWeights(row, place, 1);
  const slopeAlong = -slope(grown, place, 'along');
  const { thicknessMm, time = 0 } = reading;
  const effects = effectsOn(grown.errors, pass, { thicknessMm, time, slopeAlong });
  const halfWidth = grown.passes[pass]!.halfWidthMm(reading.fromTipMm);
  const slopeAcross = slope(grown, place, 'across') / halfWidth;
  const one = comparedVariance(grown.noise, slopeAlong, slopeAcross, grown.passes.length);
  const variance = (one * reading.noiseFactor ** 2) / reading.repeats;
  const gain = gainOf(posterior, row, effects, variance);
  const surprise = reading.thicknessMm - dot(row, posterior.mean) - dot(effects, grown.sharedMean);
  return moved(grown, blade, pass, gain, surprise);
}

function slope(
  model: ReedPosterior,
  place: { blade: Blade; pass: number; fromTipMm: number; across: number },
  derivative: 'along' | 'across',
): number {
  const posterior = model.blades[place.blade]!;
  const row = new Float64Array(posterior.mean.length);
  model.addWeights(row, { ...place, derivative }, 1);
  return dot(row, posterior.mean);
}

/** The model with room for what a pass took off each blade that was read before: its first reading then costs no more than others. */
export function openedFor(model: ReedPosterior, pass: number): ReedPosterior {
  return BLADES.reduce((opened, blade) => withPass(opened, blade, pass) ?? opened, model);
}

/** The model with room for what a pass took off: itself where it is the last, grown where it comes after it. */
function withPass(model: ReedPosterior, blade: Blade, pass: number): ReedPosterior | undefined {
  const last = passesRead(model, blade).at(-1);
  if (last === undefined || pass < last) return undefined;
  return pass === last ? model : opened(model, blade, pass);
}

function opened(model: ReedPosterior, blade: Blade, pass: number): ReedPosterior {
  const layout = model.layouts[blade]!;
  const { mean, loadings, covariance } = model.blades[blade]!;
  const removal = firstVariances(layout.removal);
  const grown = covariance.slice();
  const [d, from] = [mean.length, baseCount(layout)];
  removalPrior(layout.removal, removal).forEach((value, k) => {
    const row = Math.floor(k / removal.length);
    grown[(from + row) * d + from + (k % removal.length)]! += value;
  });
  const step: Step = { pass, removal, ...nothingSeen() };
  return withStep(
    { ...model, blades: { ...model.blades, [blade]: { mean, loadings, covariance: grown } } },
    blade,
    step,
  );
}

const nothingSeen = () => ({
  rows: sparseRows([]),
  factor: new Float64Array(0),
  white: new Float64Array(0),
  errors: 0,
  surprise: new Float64Array(0),
});

function withStep(model: ReedPosterior, blade: Blade, step: Step): ReedPosterior {
  const { prior, steps } = model.records[blade]!;
  const records = { ...model.records, [blade]: { prior, steps: [...steps, step] } };
  return fittedReed(model.passes, { ...model, records });
}

/** How one reading moves a blade: h its row, P the covariance, d how its expectation moves with the shared errors. */
interface Gain {
  /** h. */
  readonly row: Float64Array;
  /** P h. */
  readonly spread: Float64Array;
  /** h'P h and the reading's own variance. */
  readonly variance: number;
  readonly d: Float64Array;
}

function gainOf(
  posterior: BladePosterior,
  row: Float64Array,
  effects: Float64Array,
  readingVarianceMm2: number,
): Gain {
  const spread = covarianceTimes(posterior, row);
  const d = effects.slice();
  addTransposedTimes(d, posterior.loadings, row);
  return { row, spread, variance: dot(row, spread) + readingVarianceMm2, d };
}

function moved(
  model: ReedPosterior,
  blade: Blade,
  pass: number,
  gain: Gain,
  surprise: number,
): ReedPosterior {
  const { sharedMean, sharedCovariance } = model;
  const s = sharedMean.length;
  const toShared = multiply(sharedCovariance, s, gain.d);
  const total = dot(gain.d, toShared) + gain.variance;
  const sharedStep = toShared.map((value) => (value * surprise) / total);
  const blades: Partial<Record<Blade, BladePosterior>> = {};
  for (const [name, posterior] of bladeEntries(model.blades)) {
    const updated = name === blade ? narrowed(posterior, gain, surprise) : posterior;
    const byShared = multiply(updated.loadings, s, sharedStep);
    const mean = updated.mean.map((value, i) => value + byShared[i]!);
    blades[name] = narrowedBy(updated, { mean, loadings: updated.loadings });
  }
  const after = {
    ...model,
    blades,
    sharedMean: sharedMean.map((value, i) => value + sharedStep[i]!),
    sharedCovariance: lessSquare(sharedCovariance, toShared, total),
  };
  return withStep(after, blade, stepOf(pass, gain, surprise + dot(gain.d, sharedMean)));
}

/** @param surprise What the reading surprised by, the shared errors at zero. */
function stepOf(pass: number, { row, spread, variance, d }: Gain, surprise: number): Step {
  const root = Math.sqrt(variance);
  const index = [...supportOf(row)];
  return {
    pass,
    rows: sparseRows([{ index, weight: index.map((k) => row[k]!) }]),
    factor: Float64Array.of(root),
    white: Float64Array.from([...spread, ...d], (value) => value / root),
    errors: d.length,
    surprise: Float64Array.of(surprise / root),
  };
}

function narrowed(
  posterior: BladePosterior,
  { spread, variance, d }: Gain,
  surprise: number,
): BladePosterior {
  const s = d.length;
  const loadings = posterior.loadings.slice();
  for (let i = 0; i < spread.length; i++) {
    const gain = spread[i]! / variance;
    for (let j = 0; j < s; j++) loadings[i * s + j]! -= gain * d[j]!;
  }
  const mean = posterior.mean.map((value, i) => value + (spread[i]! * surprise) / variance);
  const root = Math.sqrt(variance);
  return narrowedBy(
    posterior,
    { mean, loadings },
    spread.map((value) => value / root),
  );
}

/** M - v v' / scale, symmetric to the bit. */
function lessSquare(m: Float64Array, v: Float64Array, scale: number): Float64Array {
  const n = v.length;
  const result = new Float64Array(n * n);
  const root = v.map((value) => value / Math.sqrt(scale));
  for (let i = 0; i < n; i++) {
    const ri = root[i]!;
    const row = i * n;
    for (let j = 0; j < n; j++) result[row + j] = m[row + j]! - ri * root[j]!;
  }
  return result;
}
