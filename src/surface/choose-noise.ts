import {
  LOG_SEATING_SD,
  parabolaTop,
  readingNoise,
  usualSeatingMm,
  type NoiseModel,
} from '../gauge/reading-noise.ts';
import { resolutionU } from '../gauge/resolution.ts';
import type { BaseSpace } from './base-surface.ts';
import { baseReadings, readingPairs, type Draft } from './draft.ts';
import { LOG_PLACEMENT_SD, noiseFromPairs, type ReadingPair } from './noise-from-pairs.ts';
import type { FitPass, NoiseSource } from './reed-model.ts';
import { chooseRoughness, type Roughness } from './roughness-evidence.ts';

/** What is known of the noise beside the readings. */
export interface NoiseOptions {
  /** Step of the gauge's display, mm; found from the readings where it is not given. */
  readonly stepMm?: number;
  /** Placement error along the blade, one standard deviation. */
  readonly placementMm?: number;
  /** Seating noise of one reading with its source, resolution included. */
  readonly seating?: { readonly sdMm: number; readonly from: 'repeats' | 'study' | 'declared' };
  /** Places of passes whose labels or lengths are in doubt: comparing them with others says nothing of the noise. */
  readonly unsettled?: readonly number[];
}

/** A space for the base surface, each blade's roughness there, and how little both blades' readings believe them. */
interface BaseChoice {
  readonly space: BaseSpace;
  readonly roughness: readonly Roughness[];
  readonly cost: number;
}

/** What is fitted, as far as the choice of its noise goes. */
export interface Fitted {
  readonly passes: readonly FitPass[];
  /** One for each blade that was read. */
  readonly drafts: readonly Draft[];
  readonly spaces: readonly BaseSpace[];
  readonly stepMm: number;
}

interface NoiseChoice {
  readonly noise: NoiseModel;
  readonly from: NoiseSource;
  readonly base: BaseChoice;
}

/** Noise of one reading before the readings themselves are asked, with the source of its seating; what is usual counts as declared. */
export function knownNoise(
  { seating, placementMm }: NoiseOptions,
  stepMm: number,
): { noise: NoiseModel; from: NoiseSource } {
  const sdMm = seating?.sdMm ?? Math.hypot(usualSeatingMm(stepMm), resolutionU(stepMm));
  const noise = readingNoise(sdMm, placementMm, placementMm === undefined ? 'usual' : 'declared');
  return { noise, from: seating?.from ?? 'declared' };
}

/**
 * The noise of one reading from the best source that there is: repeats, a study, cane that did not change between
 * passes, what the gauge declares, and only then the scatter about the surface; with it the likeliest base.
 */
export function chooseNoise(fitted: Fitted, options: NoiseOptions): NoiseChoice {
  const { noise: before, from } = knownNoise(options, fitted.stepMm);
  const paired = fromPairs(fitted, options);
  const noise = paired ?? before;
  const chosen: NoiseChoice = {
    noise,
    from: paired && from === 'declared' ? 'passes' : from,
    base: likeliestBase(fitted, noise),
  };
  return paired || options.seating ? chosen : fromScatter(fitted, chosen, options.placementMm !== undefined);
}

/** What pairs of settled passes say of the noise that is not known better; undefined with too few of them. */
export function fromPairs(
  { drafts, passes, stepMm }: Pick<Fitted, 'drafts' | 'passes' | 'stepMm'>,
  options: NoiseOptions,
): NoiseModel | undefined {
  const { noise, from } = knownNoise(options, stepMm);
  const known = { seating: from !== 'declared', placement: options.placementMm !== undefined };
  if (known.seating && known.placement) return undefined;
  return noiseFromPairs(amongPasses(settledPairs(passes, drafts, options.unsettled)), stepMm, noise, known);
}

/** So many passes tell the noise well enough: the first, so that what earlier passes rest on stays when more come. */
const MOST_PASSES = 8;

function amongPasses(pairs: readonly ReadingPair[]): readonly ReadingPair[] {
  const passes = [...new Set(pairs.map(({ pass }) => pass))].sort((a, b) => a - b);
  const last = passes[MOST_PASSES - 1] ?? Infinity;
  return pairs.filter(({ pass }) => pass <= last);
}

/**
 * The lower middle one of the placements that passes tell, each against the one before, since a pass that is not where or
 * what it says looks like a bad hand; undefined where it is declared, or none tells.
 */
export function placementByPass(
  { drafts, passes, stepMm }: Pick<Fitted, 'drafts' | 'passes' | 'stepMm'>,
  options: NoiseOptions,
): number | undefined {
  if (options.placementMm !== undefined) return undefined;
  const { noise, from } = knownNoise(options, stepMm);
  const known = { seating: from !== 'declared', placement: false };
  const pairs = settledPairs(passes, drafts);
  const told = passes
    .flatMap((_, at) => {
      const own = pairs.filter(({ pass }) => pass === at);
      return noiseFromPairs(own, stepMm, noise, known)?.alongMm ?? [];
    })
    .sort((a, b) => a - b);
  return told[(told.length - 1) >> 1];
}

/** The space in which the blades' fullest passes are likeliest together. */
function likeliestBase({ passes, drafts, spaces }: Omit<Fitted, 'stepMm'>, noise: NoiseModel): BaseChoice {
  const tried: BaseChoice[] = [];
  for (const space of spaces) {
    const similar = tried.at(-1)?.roughness;
    const roughness = drafts.map((blade, i) =>
      chooseRoughness(space, baseReadings(blade, space, noise, passes), similar?.[i]?.logPrecisions),
    );
    tried.push({ space, roughness, cost: roughness.reduce((sum, { cost }) => sum + cost, 0) });
  }
  return tried.reduce((best, other) => (other.cost < best.cost ? other : best));
}

function settledPairs(
  passes: readonly FitPass[],
  drafts: readonly Draft[],
  unsettled: readonly number[] = [],
): ReadingPair[] {
  return drafts
    .flatMap((blade) => readingPairs(blade, passes))
    .filter(({ pass }) => !unsettled.includes(pass) && !unsettled.includes(pass - 1));
}

/** Fewest readings of the fullest passes whose scatter says more than what is usual. */
const FEWEST_READINGS = 40;
/** What is tried beside a usual value: this many times it, and as many times less. */
const FACTOR = 2;
/** Most steps of that away from what is usual. */
const FURTHEST_STEPS = 2;
/** How much likelier another seating must make the readings to be believed against the usual one, as log evidence. */
const CONTRADICTION = 3;

/**
 * Placement, then seating, then placement once more where the seating turned out another, each at the top of the parabola
 * through the evidence of three, each with the roughness that it makes likeliest, weighed with how far gauges and hands
 * stray from what is usual. Shape that the stations cannot follow counts as scatter, so that the usual seating stands unless
 * the readings contradict it; of a hand the readings are asked anyway, and first, since hands differ more.
 */
function fromScatter(fitted: Fitted, usual: NoiseChoice, isPlaced: boolean): NoiseChoice {
  const { passes, drafts } = fitted;
  const spaces = [usual.base.space];
  const count = drafts.reduce(
    (sum, blade) => sum + baseReadings(blade, usual.base.space, usual.noise, passes).length,
    0,
  );
  if (count < FEWEST_READINGS) return usual;
  const withNoise = (noise: NoiseModel): Tried => ({
    noise,
    base: likeliestBase({ passes, drafts, spaces }, noise),
  });
  const placed = (before: Tried) =>
    likeliestBeside(
      before,
      (factor) => withNoise(readingNoise(before.noise.seatingMm, before.noise.alongMm * factor, 'residuals')),
      LOG_PLACEMENT_SD,
    ).best;
  const first = isPlaced ? usual : placed(usual);
  const seated = (factor: number) => withNoise({ ...first.noise, seatingMm: first.noise.seatingMm * factor });
  const { best, gain } = likeliestBeside(first, seated, LOG_SEATING_SD);
  if (gain < CONTRADICTION) return { ...first, from: usual.from };
  if (isPlaced) return { ...best, from: 'residuals' };
  return { ...placed(withNoise(readingNoise(best.noise.seatingMm))), from: 'residuals' };
}

type Tried = Pick<NoiseChoice, 'noise' | 'base'>;

/** What makes the readings likeliest among a usual noise and factors of it, and how much likelier than the usual it is. */
function likeliestBeside(
  usual: Tried,
  withFactor: (factor: number) => Tried,
  logSd: number,
): { best: Tried; gain: number } {
  const worthOf = ({ base }: Tried, steps: number) =>
    -0.5 * ((steps * Math.log(FACTOR)) / logSd) ** 2 - base.cost;
  const worth = (steps: number) => worthOf(withFactor(FACTOR ** steps), steps);
  const known = worthOf(usual, 0);
  let at = 0;
  let [less, here, more] = [worth(-1), known, worth(1)];
  while (Math.max(less, more) > here && Math.abs(at) < FURTHEST_STEPS - 1) {
    if (less > more) [at, less, here, more] = [at - 1, worth(at - 2), less, here];
    else [at, less, here, more] = [at + 1, here, more, worth(at + 2)];
  }
  const steps = at + parabolaTop(less, here, more);
  const best = withFactor(FACTOR ** steps);
  return { best, gain: worthOf(best, steps) - known };
}
