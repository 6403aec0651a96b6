import { mean } from 'd3-array';
import { belongingOf, STRANGE_SDS, strayedOf } from './belongs.ts';
import { stationsIn } from './interpolation.ts';
import { learnFamily, type LearnedFamily } from './learn.ts';
import { predictiveOf, type Predictive } from './predictive.ts';
import type { ReadReed } from './read-reed.ts';

/** Fewer reeds teach nothing that could be checked: the usual prior stands. */
export const FEWEST_REEDS = 8;
/** Fewer readings of a reed say nothing of its kind. */
const FEWEST_READINGS = 20;
/** Where reeds left out stray further than this from what the others lead to expect, in variance, nothing is believed. */
const MOST_STRAYED = 3;

/** What a library teaches of its next reed, and what the last ones say of it. */
export interface Taught {
  readonly predictive: Predictive;
  readonly family: LearnedFamily;
  /** How far reeds left out strayed, in variance: 1 as expected. */
  readonly strayed: number;
  /** The last reeds are of another kind than those before them: the next may be of either, and is not to be told by both. */
  readonly isChanging: boolean;
}

/**
 * What reeds of one style and stage teach: those before the last eight, the first eight at least, and then all. Half of them are held against what
 * the other half leads to expect, and the other way round: where they stray further, everything is as much wider; where
 * they stray far, or there are few, nothing is taught.
 *
 * @param reeds Oldest first.
 */
export function taughtBy(reeds: readonly ReadReed[]): Taught | undefined {
  const read = reeds.filter(({ readings }) => readings.length >= FEWEST_READINGS);
  if (read.length < FEWEST_REEDS) return undefined;
  const earlier = read.slice(0, Math.max(FEWEST_REEDS, read.length - FEWEST_REEDS));
  const before = read.length < FEWEST_REEDS + LAST ? undefined : learnFamily(earlier);
  const family = learnFamily(read, before);
  const strayed = Math.max(1, halvesStrayed(read));
  if (strayed > MOST_STRAYED) return undefined;
  return {
    family,
    strayed,
    predictive: predictiveOf(family, strayed),
    isChanging: before !== undefined && isChanging(read.slice(-LAST), before),
  };
}

/**
 * Mean squared distance of each half from what the other leads to expect, by the number of readings. Learned from nothing, since
 * what all taught knows the half that is left out.
 */
function halvesStrayed(reeds: readonly ReadReed[]): number {
  const ratios = [0, 1].flatMap((half) => {
    const others = reeds.filter((_, i) => i % 2 !== half);
    const predictive = predictiveOf(learnFamily(others));
    const stations = stationsIn(predictive.frame, predictive.stations);
    return reeds.filter((_, i) => i % 2 === half).map((reed) => strayedOf(reed, predictive, stations));
  });
  return mean(ratios)!;
}

/** So many of the last reeds tell of a change, and so many of them must lie where one of the family in 20 does. */
const LAST = 3;
const STRANGE = { reeds: 2, sds: 1.645 } as const;

/**
 * Whether the last reeds are unlike those before the last eight, or the newest very much so. Reeds of a new kind are known by
 * themselves once there are as many as teach anything; until then they would be taken for the old ones gone astray.
 */
function isChanging(last: readonly ReadReed[], before: LearnedFamily): boolean {
  const predictive = predictiveOf(before);
  const stations = stationsIn(predictive.frame, predictive.stations);
  const sds = last.map((reed) => belongingOf(reed, predictive, stations).sds);
  return sds.at(-1)! > STRANGE_SDS || sds.filter((one) => one > STRANGE.sds).length >= STRANGE.reeds;
}
