import { zonesAt, type ReedAtPass } from '../answers/benched-reed.ts';
import { closedPlaces } from './closed-places.ts';
import { excessOver, type ExcessMap } from './excess.ts';
import { nextStrokes, type Plan } from './next-strokes.ts';
import type { Target } from './target.ts';
import type { Blade } from '../../shared/blade.ts';

/** A plan with the maps that it was made from. */
export interface MadePlan {
  readonly target: Target;
  readonly excess: Readonly<Partial<Record<Blade, ExcessMap>>>;
  readonly plan: Plan;
}

/** Plans the next strokes of a reed towards a target, within the floors of its style. */
export function makePlan(own: ReedAtPass, target: Target, tipLast = true): MadePlan {
  const { benched, pass } = own;
  const excess = excessOver(benched.model!, pass, target);
  const plan = nextStrokes({
    excess,
    zones: zonesAt(benched, pass, 'tip'),
    floors: benched.assembled.style.floors,
    geometry: benched.assembled.passes[pass]!,
    closed: closedPlaces(benched, pass),
    tipLast,
  });
  return { target, excess, plan };
}
