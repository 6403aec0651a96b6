import { dayNumber } from '../../shared/moment.ts';
import type { Trial } from '../../shared/trial.ts';
import { studentCoverageFactor } from '../numerics/student-quantile.ts';
import type { CaneWater } from './cane-water.ts';

/** What may go with the water in the cane between two trials of a reed that the knife did not touch meanwhile. */
const HEARD = {
  openingMm: ({ openingMm }: Trial) => openingMm,
  resistance: ({ resistance }: Trial) => resistance,
  response: ({ response }: Trial) => response,
  crowCents: ({ crow }: Trial) => crow?.cents,
} as const;
export type HeardWithAir = keyof typeof HEARD;
const NAMES = Object.keys(HEARD) as HeardWithAir[];

/** A change that goes with the air, for one per cent more water in the cane. */
export interface WithTheAir {
  readonly heard: HeardWithAir;
  readonly perPercent: number;
  /** Half of its 95 % interval. */
  readonly doubt: number;
  readonly pairs: number;
}

const FEWEST_PAIRS = 8;
/** Pairs between which the air hardly moved say nothing. */
const LEAST_MOVED_PCT = 0.5;
const MOST_DAYS_APART = 21;

type Pair = readonly [water: number, heard: number];

/**
 * What changed with the reeds when the air changed, where it can be told: a straight line through nought over pairs of
 * trials of the same reed after the same pass, its slope further from nought than a Student interval that counts how many
 * things were looked at (Bonferroni).
 *
 * @returns Nothing where nothing can be told; the surest first.
 */
export function withTheAir(trials: readonly Trial[], water: readonly CaneWater[]): WithTheAir[] {
  const held = new Map(water.map(({ day, percent }) => [day, percent]));
  const pairs = pairedTrials(trials);
  return NAMES.flatMap((heard): WithTheAir[] => {
    const moved = pairs.flatMap(([first, second]): Pair[] => {
      const [a, b] = [HEARD[heard](first), HEARD[heard](second)];
      const [from, to] = [held.get(dayNumber(first.playedAt)), held.get(dayNumber(second.playedAt))];
      if (a === undefined || b === undefined || from === undefined || to === undefined) return [];
      return Math.abs(to - from) < LEAST_MOVED_PCT ? [] : [[to - from, b - a]];
    });
    return told(heard, moved);
  }).sort((a, b) => Math.abs(b.perPercent) / b.doubt - Math.abs(a.perPercent) / a.doubt);
}

/** Trials of one reed that follow each other, with nothing scraped between them. */
function pairedTrials(trials: readonly Trial[]): (readonly [Trial, Trial])[] {
  const ordered = [...trials].sort((a, b) => Date.parse(a.playedAt) - Date.parse(b.playedAt));
  const last = new Map<string, Trial>();
  return ordered.flatMap((trial) => {
    const before = last.get(trial.reedId);
    last.set(trial.reedId, trial);
    const same = before?.afterPass !== undefined && before.afterPass === trial.afterPass;
    return same && dayNumber(trial.playedAt) - dayNumber(before.playedAt) <= MOST_DAYS_APART
      ? [[before, trial] as const]
      : [];
  });
}

function told(heard: HeardWithAir, moved: readonly Pair[]): WithTheAir[] {
  if (moved.length < FEWEST_PAIRS) return [];
  const spread = moved.reduce((sum, [water]) => sum + water * water, 0);
  const perPercent = moved.reduce((sum, [water, change]) => sum + water * change, 0) / spread;
  const rest = moved.reduce((sum, [water, change]) => sum + (change - perPercent * water) ** 2, 0);
  const u = Math.sqrt(rest / (moved.length - 1) / spread);
  const isTold = Math.abs(perPercent) > studentCoverageFactor(1 - 0.05 / NAMES.length, moved.length - 1) * u;
  const doubt = studentCoverageFactor(0.95, moved.length - 1) * u;
  return isTold ? [{ heard, perPercent, doubt, pairs: moved.length }] : [];
}
