import type { ReedAtPass } from '../answers/benched-reed.ts';
import type { Point } from '../numerics/polygon.ts';
import { planTowards } from './make-plan.ts';
import type { Step } from './next-strokes.ts';
import { beside, type Beside } from './reed-beside.ts';
import { stepOutlines } from './step-outlines.ts';

/** As many places as one can keep in mind from a lesson. Common practice, no source. */
const MOST_TOUCHES = 3;

/** One place to touch, with its outline on the blade that is worked on. */
export interface Touch extends Step {
  readonly outlines: readonly (readonly Point[])[];
}

/** Two reeds beside each other, and what the pupil may touch, in the order of working. */
export interface Lesson {
  readonly compared: Beside;
  readonly touches: readonly Touch[];
}

/** Sets a reed beside the example, and says where it may be scraped towards it: never below a floor, half at a time. */
export function lessonOf(own: ReedAtPass, example: ReedAtPass): Lesson {
  const { steps } = planTowards(own, example);
  return {
    compared: beside(own, example),
    touches: steps.slice(0, MOST_TOUCHES).map((step) => ({ ...step, outlines: stepOutlines(step, own) })),
  };
}
