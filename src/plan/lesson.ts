import type { ReedAtPass } from '../answers/fitted-reed.ts';
import { figuresOf } from '../answers/record/reed-figures.ts';
import { besideGrid, compare, type Compared, type ComparedZone } from './compare.ts';
import { followedReed, planTowards } from './make-plan.ts';
import type { PlanHabits } from './next-strokes.ts';
import { standsOut } from './say-compared.ts';
import type { AlongMm, Step } from './step.ts';
import { targetFromReed } from './target.ts';

/** As many differences as one can keep in mind from a lesson, and as many places to touch. Common practice, no source. */
const MOST = 3;

/** A zone in which the two differ by more than their doubt, and where it lies on each, mm from its own tip. */
export interface LessonDifference extends ComparedZone {
  readonly ownMm: AlongMm;
  readonly otherMm: AlongMm;
}

/** Two reeds beside each other, and what the pupil may touch, in the order of working. */
export interface Lesson {
  readonly compared: Compared;
  /** At most three, from the tip: the largest, and that of the one deed among them where it can be told. */
  readonly differences: readonly LessonDifference[];
  /** What to do about one of them; absent where nothing may be taken. */
  readonly deed?: Step;
  readonly touches: readonly Step[];
}

function alongOf(reed: ReedAtPass, zone: string): AlongMm | undefined {
  const placed = figuresOf(reed).placed.find(({ name }) => name === zone);
  const distances = placed?.outlines.flatMap((outline) => outline.map(([fromTipMm]) => fromTipMm)) ?? [];
  return distances.length > 0 ? [Math.min(...distances), Math.max(...distances)] : undefined;
}

function differencesOf(
  own: ReedAtPass,
  example: ReedAtPass,
  { zones }: Compared,
  deed: Step | undefined,
): LessonDifference[] {
  const weight = ({ name, difference }: ComparedZone) =>
    name === deed?.zone ? Infinity : Math.abs(difference.valueMm);
  const chosen = zones.filter(standsOut).sort((a, b) => weight(b) - weight(a));
  return chosen
    .slice(0, MOST)
    .map((zone) => {
      const ownMm = alongOf(own, zone.name)!;
      return { ...zone, ownMm, otherMm: alongOf(example, zone.name) ?? ownMm };
    })
    .sort((a, b) => a.ownMm[0] - b.ownMm[0]);
}

/** Sets a reed beside the example, and says where it may be scraped towards it: above its floors, half at a time. */
export function lessonOf(own: ReedAtPass, example: ReedAtPass, habits: PlanHabits = {}): Lesson {
  const { steps } = planTowards(own, followedReed(example), habits).plan;
  const compared = compare(own, targetFromReed(example, besideGrid(own)));
  const [deed] = steps;
  return {
    compared,
    differences: differencesOf(own, example, compared, deed),
    ...(deed && { deed }),
    touches: steps.slice(0, MOST),
  };
}
