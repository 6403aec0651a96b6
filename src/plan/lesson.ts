import type { ReedAtPass } from '../answers/benched-reed.ts';
import { besideGrid, compare, type Compared } from './compare.ts';
import { followedReed, planTowards } from './make-plan.ts';
import type { PlanHabits } from './next-strokes.ts';
import type { Step } from './step.ts';
import { targetFromReed } from './target.ts';

/** As many places as one can keep in mind from a lesson. Common practice, no source. */
const MOST_TOUCHES = 3;

/** Two reeds beside each other, and what the pupil may touch, in the order of working. */
export interface Lesson {
  readonly compared: Compared;
  readonly touches: readonly Step[];
}

/** Sets a reed beside the example, and says where it may be scraped towards it: above its floors, half at a time. */
export function lessonOf(own: ReedAtPass, example: ReedAtPass, habits: PlanHabits = {}): Lesson {
  const { steps } = planTowards(own, followedReed(example), habits).plan;
  return {
    compared: compare(own, targetFromReed(example, besideGrid(own))),
    touches: steps.slice(0, MOST_TOUCHES),
  };
}
