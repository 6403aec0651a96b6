import { zonesAt, type ReedAtPass } from '../answers/benched-reed.ts';
import { closedPlaces } from './closed-places.ts';
import { excessOver, type ExcessMap } from './excess.ts';
import { mapGrid } from '../figures/surface-map.ts';
import { nextStrokes, type Plan } from './next-strokes.ts';
import { targetFromReed, type Target } from './target.ts';
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
    zones: zonesAt(benched, pass),
    floors: benched.assembled.style.floors,
    geometry: benched.assembled.passes[pass]!,
    closed: closedPlaces(benched, pass),
    tipLast,
  });
  return { target, excess, plan };
}

const GRID = { along: 51, across: 31 };

/** Plans the next strokes of a reed towards another, as far down as that one was read. */
export function planTowards(own: ReedAtPass, example: ReedAtPass): Plan {
  const geometry = own.benched.assembled.passes[own.pass]!;
  const other = example.benched.assembled.passes[example.pass]!;
  const readTo = Math.max(0, ...other.readings.map(({ fromTipMm }) => fromTipMm));
  const lastMm = Math.min(geometry.bladeLengthMm, other.bladeLengthMm, readTo);
  return makePlan(own, targetFromReed(example, mapGrid(lastMm, GRID.along, GRID.across))).plan;
}
