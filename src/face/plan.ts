/** Plan: how far a reed is from an example, and what to scrape next. */
import type { Fitted } from './fit.ts';
import { atPass } from './figures.ts';
import { besideGrid, compare, type Compared } from '../plan/compare.ts';
import { followedReed, planTowards, type MadePlan } from '../plan/make-plan.ts';
import type { PlanHabits } from '../plan/next-strokes.ts';
import { sayWhere } from '../plan/say-step.ts';
import { targetFromReed } from '../plan/target.ts';

export { sayWhere, type Compared, type MadePlan, type PlanHabits };

/** The pass of a reed; its last one when `pass` is left out. */
export interface At {
  readonly reed: Fitted;
  readonly pass?: number;
}

/** A reed beside an example, zone by zone and place by place, placed from the tip. Excess is positive. */
export function beside(own: At, example: At): Compared {
  const at = atPass(own.reed, own.pass);
  return compare(at, targetFromReed(atPass(example.reed, example.pass), besideGrid(at)));
}

/**
 * The next strokes towards an example: one zone first, at most half the excess, never below a floor of the style.
 *
 * @param habits `marginMm` from floors and lacks, `tipLast`.
 */
export function plan(own: At, example: At, habits: PlanHabits = {}): MadePlan {
  return planTowards(atPass(own.reed, own.pass), followedReed(atPass(example.reed, example.pass)), habits);
}
