import { zonesAt, type ReedAtPass } from '../answers/fitted-reed.ts';
import { closedPlaces } from './closed-places.ts';
import { excessOver, type ExcessMap } from './excess.ts';
import { mapGrid } from '../figures/surface-map.ts';
import { makeTarget, type Followed } from './make-target.ts';
import { nextStrokes, type Plan, type PlanHabits } from './next-strokes.ts';
import { meanOverTarget } from './place-means.ts';
import type { Target } from './target.ts';
import { wasRead } from './was-read.ts';
import type { Blade } from '../../shared/blade.ts';

/** A plan with the maps that it was made from. */
export interface MadePlan {
  readonly target: Target;
  readonly excess: Readonly<Partial<Record<Blade, ExcessMap>>>;
  readonly plan: Plan;
}

/** Outlines are drawn over a grid this fine: between its places the doubt hardly bends. */
const ALONG_MM = 0.2;
const ACROSS = 41;

/**
 * Plans the next strokes of a reed towards what it follows, within the floors of its style: the same on every screen.
 *
 * @throws InputError when a reed that is followed is not there or was never read.
 */
export function planTowards(own: ReedAtPass, followed: Followed, habits: PlanHabits = {}): MadePlan {
  const { bladeLengthMm } = own.benched.assembled.passes[own.pass]!;
  const grid = mapGrid(bladeLengthMm, Math.round(bladeLengthMm / ALONG_MM) + 1, ACROSS);
  return makePlan(own, makeTarget(followed, own, grid), habits);
}

/** Plans the next strokes of a reed towards a target. */
export function makePlan(own: ReedAtPass, target: Target, habits: PlanHabits = {}): MadePlan {
  const { benched, pass } = own;
  const excess = excessOver(benched.model!, pass, target);
  const plan = nextStrokes({
    excess,
    meanExcess: (places) => meanOverTarget(own, target, places),
    read: (blade, map) => wasRead(own, blade, map),
    zones: zonesAt(benched, pass),
    floors: benched.assembled.style.floors,
    geometry: benched.assembled.passes[pass]!,
    closed: closedPlaces(benched, pass),
    ...habits,
  });
  return { target, excess, plan };
}

/** A reed at a pass as what another one follows. */
export function followedReed({ benched, pass }: ReedAtPass): Followed {
  const example = { reedId: benched.reed.id, passIndex: benched.passes[pass]!.index };
  return { recipe: { from: 'reeds', examples: [example] }, placing: 'tip', reeds: [benched] };
}
