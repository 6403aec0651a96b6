import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { ACROSS_BASIS } from './base-surface.ts';
import type { BasePrior } from './base-prior.ts';
import { addLayoutWeights, baseCount, layoutLine, type BladeLayout } from './blade-layout.ts';
import { posteriorOf, sharedCovarianceOf, type Step } from './blade-state.ts';
import { bladeViews, type BladeViews } from './blade-views.ts';
import type { NoiseModel } from '../gauge/reading-noise.ts';
import {
  ordersOf,
  type BladePosterior,
  type PassGeometry,
  type ReedModel,
  type SurfacePlace,
} from './reed-model.ts';
import { spreadOf } from './removal-space.ts';
import type { SharedError } from './shared-errors.ts';
import type { BladeToFit, Sweep } from './sweep.ts';
import { coefficientCount } from './tensor-basis.ts';

/** What was read of a blade, step by step, and what was believed before. */
export interface BladeRecord {
  readonly prior: BasePrior;
  readonly steps: readonly Step[];
}

/** A fitted reed with what it takes to add one more reading. */
export interface ReedPosterior extends ReedModel {
  readonly layouts: Readonly<Partial<Record<Blade, BladeLayout>>>;
  readonly records: Readonly<Partial<Record<Blade, BladeRecord>>>;
  /** Likeliest values of the shared errors. */
  readonly sharedMean: Float64Array;
  /** The shared errors themselves. */
  readonly errors: readonly SharedError[];
  readonly noise: NoiseModel;
}

/** The parts of a fitted reed from which its functions follow: plain data. */
export type FittedParts = Pick<
  ReedPosterior,
  'blades' | 'layouts' | 'records' | 'errors' | 'sharedMean' | 'sharedCovariance' | 'noise' | 'noiseFrom'
>;

/** Puts the blades of a sweep together: what both say of the shared errors moves both. */
export function assembleModel(
  passes: readonly PassGeometry[],
  toFit: Readonly<Partial<Record<Blade, BladeToFit>>>,
  sweep: Sweep,
  parts: Pick<FittedParts, 'errors' | 'noise' | 'noiseFrom'>,
): ReedPosterior {
  const blades: Partial<Record<Blade, BladePosterior>> = {};
  const layouts: Partial<Record<Blade, BladeLayout>> = {};
  const records: Partial<Record<Blade, BladeRecord>> = {};
  for (const [blade, { state, steps }] of bladeEntries(sweep.blades)) {
    const { base, removal, prior } = toFit[blade]!;
    blades[blade] = posteriorOf(state, sweep.shared.mean);
    const known = Object.values(layouts).find((one) => one.base === base && one.removal === removal);
    layouts[blade] = known ?? { base, removal };
    records[blade] = { prior, steps };
  }
  return fittedReed(passes, {
    ...parts,
    blades,
    layouts,
    records,
    sharedMean: sweep.shared.mean,
    sharedCovariance: withOpenAnswers(sharedCovarianceOf(sweep.shared), parts.errors),
  });
}

/** A question that is open leaves both answers, however sure the readings seem of one. */
function withOpenAnswers(covariance: Float64Array, errors: readonly SharedError[]): Float64Array {
  errors.forEach(({ openVariance = 0 }, m) => (covariance[m * errors.length + m]! += openVariance));
  return covariance;
}

/** The model with its figures, from its parts. */
export function fittedReed(passes: readonly PassGeometry[], parts: FittedParts): ReedPosterior {
  const { layouts, blades, noise } = parts;
  const noiseMm: Partial<Record<Blade, number>> = {};
  for (const [blade] of bladeEntries(blades)) noiseMm[blade] = noise.seatingMm;
  const layoutOf = (blade: Blade) => {
    const layout = layouts[blade];
    if (!layout) throw new InputError(`blade: ${blade} was never read`);
    return layout;
  };
  const zMm = (pass: number, fromTipMm: number) => passes[pass]!.overallLengthMm - fromTipMm;
  return {
    ...parts,
    passes,
    noiseMm,
    ...viewsOf(parts),
    addWeights(target, { blade, pass, fromTipMm, across, derivative }: SurfacePlace, factor) {
      const { along: dz, across: du } = ordersOf(derivative);
      // z runs against the distance from the tip.
      const signed = dz === 1 ? -factor : factor;
      addLayoutWeights(target, layoutOf(blade), zMm(pass, fromTipMm), across, { dz, du }, signed);
    },
    across: ACROSS_BASIS,
    lineWeights({ blade, pass, fromTipMm, derivative }) {
      return layoutLine(layoutOf(blade), { zMm: zMm(pass, fromTipMm), dz: derivative ? 1 : 0 });
    },
  };
}

/** The surfaces of all passes, worked out when they are first asked for. */
function viewsOf({
  blades,
  layouts,
  records,
  errors,
  sharedMean,
}: FittedParts): Pick<ReedModel, 'after' | 'meanAfter' | 'taken' | 'together'> {
  const views: Partial<Record<Blade, BladeViews>> = {};
  const of = (blade: Blade): BladeViews => {
    const [layout, record, last] = [layouts[blade], records[blade], blades[blade]];
    if (!layout || !record || !last) throw new InputError(`blade: ${blade} was never read`);
    const size = {
      base: baseCount(layout),
      removal: coefficientCount(layout.removal),
      shared: errors.length,
    };
    return (views[blade] ??= bladeViews(
      { ...record, size, spread: spreadOf(layout.removal) },
      last,
      sharedMean,
    ));
  };
  return {
    after: (blade, pass) => of(blade).after(pass),
    meanAfter: (blade, pass) => of(blade).meanAfter(pass),
    taken: (blade, before, after) => of(blade).taken(before, after),
    together: (blade, figures) => of(blade).together(figures),
  };
}

/** Passes that read a blade, in rising order. */
export function passesRead({ records }: Pick<ReedPosterior, 'records'>, blade: Blade): readonly number[] {
  return [...new Set(records[blade]?.steps.map(({ pass }) => pass))];
}

export function bladeEntries<T>(record: Readonly<Partial<Record<Blade, T>>>): [Blade, T][] {
  return BLADES.flatMap((blade) => {
    const entry = record[blade];
    return entry === undefined ? [] : [[blade, entry] as [Blade, T]];
  });
}
