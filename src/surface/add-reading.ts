import { BLADES, type Blade } from '../../shared/blade.ts';
import { addTransposedTimes, dot, multiply } from '../numerics/quadratic-form.ts';
import { bladeLayout, type BladeLayout } from './blade-layout.ts';
import { bladeEntries, fittedReed, type FittedReed } from './fitted-reed.ts';
import { readingVariance } from '../gauge/reading-noise.ts';
import { covarianceTimes, narrowedBy } from './narrowed.ts';
import type { BladePosterior, FitReading } from './reed-model.ts';
import { FIRST_REMOVAL_SD_MM, removalPrior } from './removal-space.ts';
import { effectsOn } from './shared-errors.ts';

/**
 * The model with one more reading, smoothing and noise held: one rank-one step, exact for a linear normal model.
 *
 * @param pass Place of the reading's pass in the model's list.
 * @returns undefined where only a new fit can take the reading: the first of a blade, or the first of a pass that lies
 *   before one that is read already.
 */
export function addReading(model: FittedReed, pass: number, reading: FitReading): FittedReed | undefined {
  const { blade } = reading;
  const grown = withPass(model, blade, pass);
  if (!grown) return undefined;
  const posterior = grown.blades[blade]!;
  const place = { blade, pass, fromTipMm: reading.fromTipMm, across: reading.across };
  const row = new Float64Array(posterior.mean.length);
  grown.addWeights(row, place, 1);
  const slopeAlong = -slope(grown, place, 'along');
  const effects = effectsOn(grown.errors, pass, { thicknessMm: reading.thicknessMm, slopeAlong });
  const halfWidth = grown.passes[pass]!.halfWidthMm(reading.fromTipMm);
  const one = readingVariance(grown.noise, slopeAlong, slope(grown, place, 'across') / halfWidth);
  const variance = (one * reading.noiseFactor ** 2) / reading.repeats;
  const step = gainOf(posterior, row, effects, variance);
  const surprise = reading.thicknessMm - dot(row, posterior.mean) - dot(effects, grown.sharedMean);
  return moved(grown, blade, step, surprise);
}

function slope(
  model: FittedReed,
  place: { blade: Blade; pass: number; fromTipMm: number; across: number },
  derivative: 'along' | 'across',
): number {
  const posterior = model.blades[place.blade]!;
  const row = new Float64Array(posterior.mean.length);
  model.addWeights(row, { ...place, derivative }, 1);
  return dot(row, posterior.mean);
}

/** The model with room for what a pass took off each blade that was read before: its first reading then costs no more than others. */
export function openedFor(model: FittedReed, pass: number): FittedReed {
  return BLADES.reduce((opened, blade) => withPass(opened, blade, pass) ?? opened, model);
}

/** The model with room for what a pass took off: itself where it has it, grown by a block for a latest pass. */
function withPass(model: FittedReed, blade: Blade, pass: number): FittedReed | undefined {
  const layout = model.layouts[blade];
  const posterior = model.blades[blade];
  if (!layout || !posterior) return undefined;
  const read = [layout.basePass, ...layout.removalPasses];
  if (read.includes(pass)) return model;
  if (pass < read.at(-1)!) return undefined;
  const larger = bladeLayout(layout.base, layout.removal, [...read, pass]);
  return fittedReed({
    ...model,
    layouts: { ...model.layouts, [blade]: larger },
    blades: { ...model.blades, [blade]: grownPosterior(posterior, layout, larger) },
  });
}

function grownPosterior(posterior: BladePosterior, from: BladeLayout, to: BladeLayout): BladePosterior {
  const mean = new Float64Array(to.count);
  mean.set(posterior.mean);
  const loadings = new Float64Array((posterior.loadings.length / from.count) * to.count);
  loadings.set(posterior.loadings);
  const covariance = new Float64Array(to.count * to.count);
  for (let i = 0; i < from.count; i++)
    covariance.set(posterior.covariance.subarray(i * from.count, (i + 1) * from.count), i * to.count);
  const size = to.removalCount;
  const prior = removalPrior(to.removal, new Float64Array(size).fill(FIRST_REMOVAL_SD_MM ** 2));
  for (let i = 0; i < size; i++)
    covariance.set(prior.subarray(i * size, (i + 1) * size), (from.count + i) * to.count + from.count);
  return { mean, covariance, loadings };
}

/** How one reading moves a blade: h its row, C the covariance, d how its expectation moves with the shared errors. */
interface Gain {
  /** C h. */
  readonly spread: Float64Array;
  /** h'C h and the reading's own variance. */
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
  return { spread, variance: dot(row, spread) + readingVarianceMm2, d };
}

function moved(model: FittedReed, blade: Blade, gain: Gain, surprise: number): FittedReed {
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
  return fittedReed({
    ...model,
    blades,
    sharedMean: sharedMean.map((value, i) => value + sharedStep[i]!),
    sharedCovariance: lessSquare(sharedCovariance, toShared, total),
  });
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
