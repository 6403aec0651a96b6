import type { BaseSpace } from './base-surface.ts';
import { baseReadings, readingPairs, type Draft } from './draft.ts';
import {
  LOG_SEATING_SD,
  parabolaTop,
  resolutionSdMm,
  seatingFromPairs,
  usualSeatingMm,
  type NoiseModel,
  type ReadingPair,
} from './reading-noise.ts';
import type { FitPass, NoiseSource } from './reed-model.ts';
import { chooseRoughness, type Roughness } from './roughness-evidence.ts';

/** What is known of the noise beside the readings. */
export interface NoiseOptions {
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
interface Fitted {
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

/** Seating noise of one reading before the readings themselves are asked; what is usual counts as declared. */
export function knownNoise(options: NoiseOptions, stepMm: number): { sdMm: number; from: NoiseSource } {
  if (options.seating) return options.seating;
  return { sdMm: Math.hypot(usualSeatingMm(stepMm), resolutionSdMm(stepMm)), from: 'declared' };
}

/**
 * The noise of one reading from the best source that there is: repeats, a study, cane that did not change between
 * passes, what the gauge declares, and only then the scatter about the surface; with it the likeliest base.
 *
 * @param before Noise before the readings are asked.
 */
export function chooseNoise(fitted: Fitted, before: NoiseModel, options: NoiseOptions): NoiseChoice {
  const { from } = knownNoise(options, fitted.stepMm);
  const pairs = from === 'declared' ? settledPairs(fitted, before, options.unsettled) : [];
  const seatingMm = seatingFromPairs(pairs, fitted.stepMm, before.seatingMm);
  if (seatingMm !== undefined) {
    const noise = { ...before, seatingMm };
    return { noise, from: 'passes', base: likeliestBase(fitted, noise) };
  }
  const declared: NoiseChoice = { noise: before, from, base: likeliestBase(fitted, before) };
  return options.seating ? declared : fromScatter(fitted, declared);
}

/** The space in which the blades' fullest passes are likeliest together. */
function likeliestBase({ passes, drafts, spaces }: Omit<Fitted, 'stepMm'>, noise: NoiseModel): BaseChoice {
  const tried: BaseChoice[] = [];
  for (const space of spaces) {
    const similar = tried.at(-1)?.roughness;
    const roughness = drafts.map((blade, i) =>
      chooseRoughness(space, baseReadings(blade, space, noise, passes), similar?.[i]?.logs),
    );
    tried.push({ space, roughness, cost: roughness.reduce((sum, { cost }) => sum + cost, 0) });
  }
  return tried.reduce((best, other) => (other.cost < best.cost ? other : best));
}

function settledPairs(
  { drafts, passes }: Fitted,
  noise: NoiseModel,
  unsettled: readonly number[] = [],
): ReadingPair[] {
  return drafts
    .flatMap((blade) => readingPairs(blade, noise, passes))
    .filter(({ pass }) => !unsettled.includes(pass) && !unsettled.includes(pass - 1));
}

/** Fewest readings of the fullest passes whose scatter says more than what is usual. */
const FEWEST_READINGS = 40;
/** Seatings that are tried beside the usual one: this many times it, and as many times less. */
const FACTOR = 2;
/** How much likelier another seating must make the readings to be believed against the usual one, as log evidence. */
const CONTRADICTION = 3;

/**
 * Seating at the top of the parabola through the evidence of three seatings, each with the roughness that it makes
 * likeliest, weighed with how far gauges stray from what is usual. Shape that the stations cannot follow counts as
 * scatter, so that what is usual stands unless the readings contradict it.
 */
function fromScatter(fitted: Fitted, usual: NoiseChoice): NoiseChoice {
  const { passes, drafts } = fitted;
  const spaces = [usual.base.space];
  const count = drafts.reduce(
    (sum, blade) => sum + baseReadings(blade, usual.base.space, usual.noise, passes).length,
    0,
  );
  if (count < FEWEST_READINGS) return usual;
  const withSeating = (factor: number) => {
    const noise = { ...usual.noise, seatingMm: usual.noise.seatingMm * factor };
    return { noise, base: likeliestBase({ passes, drafts, spaces }, noise) };
  };
  const stray = (factor: number) => -0.5 * (Math.log(factor) / LOG_SEATING_SD) ** 2;
  const [less, more] = [withSeating(1 / FACTOR), withSeating(FACTOR)];
  const steps = parabolaTop(stray(FACTOR) - less.base.cost, -usual.base.cost, stray(FACTOR) - more.base.cost);
  const likeliest = withSeating(FACTOR ** steps);
  const gain = usual.base.cost - likeliest.base.cost + stray(FACTOR ** steps);
  return gain < CONTRADICTION ? usual : { ...likeliest, from: 'residuals' };
}
