import { mean } from 'd3-array';
import { BLADES, type Blade } from '../../shared/blade.ts';
import { InputError } from '../../shared/errors.ts';
import { readingNoise, type NoiseModel } from '../gauge/reading-noise.ts';
import { basePrior, type BasePrior } from './base-prior.ts';
import { baseSpace } from './base-surface.ts';
import { caneReadings, caneSpan, steepestPlace } from './blade-data.ts';
import { chooseNoise, fromPairs, knownNoise, placementByPass, type NoiseOptions } from './choose-noise.ts';
import { draft, drawnAgain, noisyReadings, type Draft } from './draft.ts';
import { commonErrors, learnedBasePrior, ofOneBlade, type LearnedPrior } from './learned-prior.ts';
import { inKnifesWay } from './learned-removal.ts';
import { assembleModel, type ReedPosterior } from './reed-posterior.ts';
import type { FitPass } from './reed-model.ts';
import { removalSpace } from './removal-space.ts';
import { sharedErrors, usualSharedErrors, type SharedErrorSizes } from './shared-errors.ts';
import { sweepPasses, type BladeToFit } from './sweep.ts';

/** What is known of gauge and hand beside the readings; everything may be left out. */
export interface FitOptions extends NoiseOptions {
  readonly shared?: SharedErrorSizes;
  /** Offset that all readings of a pass may share, pass by pass, where more is known than usually; one standard deviation. */
  readonly zerosMm?: readonly (number | undefined)[];
  /** How far apart the answers to what is asked of single passes are; 0 where nothing is asked. */
  readonly openErrors?: readonly SharedErrorSizes[];
  /** Where tip turns into heart, mm from the tip of the first pass, where few readings leave it open. */
  readonly ridgeFromTipMm?: number;
  /** What the maker's other reeds lead to expect before the first reading; absent where nothing was learned. */
  readonly learned?: LearnedPrior;
}

/** Common practice, no source. */
const USUAL_RIDGE_FROM_TIP_MM = 4.5;
/** How the coordinate along may be stretched about the ridge; the readings choose. The first serves for slopes. */
const WARPS = [
  { widthMm: 0.8, strength: 4 },
  { widthMm: 1.6, strength: 6 },
] as const;

/**
 * A reed's passes fitted jointly: one base surface and one removal per pass for each blade, on the cane, with the
 * errors that whole passes share. The work grows with the passes, not with their square. Cane only leaves, so what the passes have in common sharpens each of them, and the
 * bias of smoothing cancels in what was taken off.
 *
 * @param passes In order, with at least one reading between them.
 * @throws InputError without any reading.
 */
export function fitReed(passes: readonly FitPass[], options: FitOptions = {}): ReedPosterior {
  if (passes.every(({ readings }) => readings.length === 0))
    throw new InputError('passes: must hold readings, got none');
  const drafted = draftReed(passes, options);
  const { drafts, readBlades, span, stepMm } = drafted;
  const { noise, from, space, priors } = drafted.learned
    ? learnedChoice(drafted, drafted.learned, options)
    : usualChoice(drafted, options);
  const { shared = usualSharedErrors(stepMm), zerosMm, openErrors } = options;
  const errors = [
    ...commonErrors(options.learned),
    ...sharedErrors(passes.length, shared, zerosMm, openErrors),
  ];
  const removal = inKnifesWay(
    removalSpace(span.fromZMm, span.toZMm),
    options.learned,
    passes[0]!.overallLengthMm,
  );
  const toFit: Partial<Record<Blade, BladeToFit>> = {};
  drafts.forEach((blade, i) => {
    const prior = priors[i]!;
    toFit[readBlades[i]!] = {
      base: space,
      removal,
      prior,
      readings: noisyReadings(passes, blade, noise),
    };
  });
  return assembleModel(passes, toFit, sweepPasses(toFit, errors), { errors, noise, noiseFrom: from });
}

function usualChoice(drafted: ReturnType<typeof draftReed>, options: FitOptions) {
  const { noise, from, base } = chooseNoise(drafted, options);
  const priors = base.roughness.map((roughness) => basePrior(base.space, roughness, drafted.ridge.rise));
  return { noise, from, space: base.space, priors };
}

/** Few readings do not tell their own noise: other passes do, or what is known of the gauge and of the maker's hand. */
function learnedChoice(drafted: ReturnType<typeof draftReed>, prior: BasePrior, options: FitOptions) {
  const paired = fromPairs(drafted, options);
  const known = knownNoise(options, drafted.stepMm);
  const from = paired && known.from === 'declared' ? ('passes' as const) : known.from;
  const { placementMm = options.learned?.placementMm } = options;
  const noise = paired ?? readingNoise(known.noise.seatingMm, placementMm, known.noise.placementFrom);
  return { noise, from, space: drafted.spaces.at(-1)!, priors: drafted.drafts.map(() => prior) };
}

/** The search for faults and the fit begin with the same look. */
const looks = new WeakMap<
  readonly FitPass[],
  { readonly options: FitOptions; readonly drafted: ReturnType<typeof firstLook> }
>();

function draftReed(passes: readonly FitPass[], options: FitOptions) {
  const known = looks.get(passes);
  if (known?.options === options) return known.drafted;
  const drafted = firstLook(passes, options);
  looks.set(passes, { options, drafted });
  return drafted;
}

/** First looks at the blades that were read, and the spaces in which they may be fitted. */
function firstLook(passes: readonly FitPass[], options: FitOptions) {
  const stepMm = options.stepMm ?? stepOf(passes);
  const span = caneSpan(passes);
  const ridge = ridgeOf(passes, options);
  const inWarp = (warp: (typeof WARPS)[number]) =>
    baseSpace({ ridgeMm: ridge.zMm, ...warp }, span.fromZMm, span.toZMm);
  const spaces = options.learned ? [inWarp(WARPS[1])] : [inWarp(WARPS[0]), inWarp(WARPS[1])];
  const readBlades = BLADES.filter((blade) => caneReadings(passes, blade).length > 0);
  const space = spaces[0]!;
  const learned = options.learned && learnedBasePrior(space, options.learned, passes[0]!.overallLengthMm);
  const prior = learned && ofOneBlade(learned);
  const known = knownNoise(options, stepMm).noise;
  const first = readBlades.map((blade) => draft(passes, blade, space, known, prior));
  const drawn = (before: readonly Draft[], noise: NoiseModel) =>
    before.map((blade) => drawnAgain(passes, blade, space, noise, prior));
  const second = drawn(first, known);
  const found = fromPairs({ passes, stepMm, drafts: second }, options);
  return {
    passes,
    stepMm,
    span,
    spaces,
    readBlades,
    ridge,
    learned,
    drafts: found ? drawn(second, found) : second,
  };
}

/** Placement along the blade as far as it is known before faults are found. */
export function placementBeforeFaults(passes: readonly FitPass[], options: FitOptions = {}): number {
  const drafted = draftReed(passes, options);
  return placementByPass(drafted, options) ?? knownNoise(options, drafted.stepMm).noise.alongMm;
}

/** The largest of the usual steps of which all readings are multiples. */
export function stepOf(passes: readonly Pick<FitPass, 'readings'>[]): number {
  const values = passes.flatMap(({ readings }) =>
    readings.filter((r) => r.repeats === 1).map((r) => r.thicknessMm),
  );
  const fits = (step: number) =>
    values.every((value) => Math.abs(value / step - Math.round(value / step)) < 1e-6);
  return [0.01, 0.005, 0.002].find(fits) ?? 0.001;
}

/** Mean of both blades' steepest places in the pass with the most readings; the usual place where they leave it open. */
function ridgeOf(
  passes: readonly FitPass[],
  { ridgeFromTipMm = USUAL_RIDGE_FROM_TIP_MM, learned }: FitOptions,
): { zMm: number; rise?: number } {
  if (learned) return { zMm: passes[0]!.overallLengthMm - learned.ridgeFromTipMm, rise: learned.rise };
  const fullest = passes.reduce((best, pass) => (pass.readings.length > best.readings.length ? pass : best));
  const places = BLADES.map((blade) =>
    steepestPlace(
      caneReadings([fullest], blade).map(({ zMm, reading }) => ({ zMm, thicknessMm: reading.thicknessMm })),
    ),
  ).filter((place) => place !== undefined);
  if (places.length === 0) return { zMm: passes[0]!.overallLengthMm - ridgeFromTipMm };
  return { zMm: mean(places, ({ zMm }) => zMm)!, rise: mean(places, ({ rise }) => rise)! };
}
