import { BLADES, type Blade } from '../../shared/blade.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { LONG_SCRAPE } from '../../src/blade/starting-styles.ts';
import { offsetTarget } from '../../src/plan/target.ts';
import { seededRandom } from '../seeded-random.ts';
import { bump, favouriteTarget, grid, planFor, readReed, truthAt } from './planned-reed.ts';

type Plan = ReturnType<typeof planFor>['plan'];

export interface FloorsAfterPlans {
  readonly reedsWithSteps: number;
  /** Places of the grid where a plan puts strokes and the style sets a floor. */
  readonly places: number;
  /** Of these, how many are truly under the floor after all steps of the plan. */
  readonly under: number;
  /** Of these, how many come truly within 0.02 mm of the floor: without such the count would say little. */
  readonly near: number;
}

const NEAR_MM = 0.02;

/** What all steps of a plan take at each place of a blade, mm. */
function takenMm(plan: Plan, blade: Blade): Float64Array {
  const taken = new Float64Array(grid.ysMm.length * grid.us.length);
  for (const { places, takeMm } of plan.steps)
    places[blade]?.forEach((yes, i) => {
      if (yes === 1) taken[i] = taken[i]! + takeMm;
    });
  return taken;
}

/** True thickness less the floor, mm, at every place of a blade where the plan puts strokes. */
function roomsMm(plan: Plan, blade: Blade, thickness: (y: number, u: number) => number): number[] {
  return [...takenMm(plan, blade)].flatMap((taken, i) => {
    const [y, u] = [grid.ysMm[Math.floor(i / grid.us.length)]!, grid.us[i % grid.us.length]!];
    const floor = floorAt(LONG_SCRAPE.floors, y, u);
    return taken === 0 || floor === undefined ? [] : [thickness(y, u) - taken - floor];
  });
}

/**
 * Plans far below what each simulated reed is, so that only the floors hold the knife back, and sets the
 * true thickness after the plan beside the floor. Each reed is 0.03 mm thinner than an invented favourite,
 * with one thick place of its own, and known to the plan by noisy readings alone.
 */
export function floorsAfterPlans(reeds: number, firstSeed: number): FloorsAfterPlans {
  const aim = offsetTarget(favouriteTarget, -0.08);
  let reedsWithSteps = 0;
  const rooms: number[] = [];
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const random = seededRandom(seed);
    const hill = [7 + 8 * random(), 1.2 * random() - 0.6, 2, 0.4, 0.02 + 0.05 * random()];
    const thickness = (blade: Blade, y: number, u: number) => truthAt(blade, y, u) - 0.03 + bump(y, u, hill);
    const { plan } = planFor(readReed(thickness, seed), aim);
    if (plan.steps.length > 0) reedsWithSteps += 1;
    for (const blade of BLADES) rooms.push(...roomsMm(plan, blade, (y, u) => thickness(blade, y, u)));
  }
  return {
    reedsWithSteps,
    places: rooms.length,
    under: rooms.filter((room) => room < 0).length,
    near: rooms.filter((room) => room < NEAR_MM).length,
  };
}
