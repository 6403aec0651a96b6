import { BLADES, type Blade } from '../../shared/blade.ts';
import type { FloorTable } from '../../shared/style.ts';
import { floorAt } from '../../src/blade/floors.ts';
import { offsetTarget } from '../../src/plan/target.ts';
import { seededRandom } from '../seeded-random.ts';
import {
  bump,
  grid,
  LONG,
  planFor,
  readReed,
  SHORT,
  truthAt,
  type PlannedStyle,
  type Stations,
} from './planned-reed.ts';

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

/** How a maker may have read a reed. */
const READ: Readonly<Record<string, (random: () => number) => Stations>> = {
  whole: () => () => true,
  ragged: (random) => () => random() > 0.3,
  partial: (random) => {
    const toMm = 6 + 8 * random();
    return (blade, y) => y <= (blade === 'A' ? toMm : toMm + 4);
  },
};

/** A kind of simulated reed: its style, how much of the style's floors the maker asks, and what was read. */
export interface Family {
  readonly name: string;
  readonly laid: PlannedStyle;
  readonly floorShare: number;
  readonly read: keyof typeof READ;
}

/** Both styles, floors below, at and above those that styles start with, and whole, ragged and partial passes. */
export const FAMILIES: readonly Family[] = [LONG, SHORT].flatMap((laid) =>
  [0.9, 1, 1.1].flatMap((floorShare) =>
    Object.keys(READ).map((read) => ({
      name: `${laid.style.name.toLowerCase()}, ${Math.round(100 * floorShare)} % of its floors, ${read}`,
      ...{ laid, floorShare, read },
    })),
  ),
);

const floorsTimes = (floors: FloorTable, share: number): FloorTable => ({
  ...floors,
  floorMm: floors.floorMm.map((row) => row.map((floor) => (floor === null ? null : floor * share))),
});

/** What all steps of a plan take at each place of a blade, mm. */
function takenMm(plan: Plan, blade: Blade): Float64Array {
  const taken = new Float64Array(grid.ysMm.length * grid.us.length);
  for (const { parts, takeMm } of plan.steps)
    for (const part of parts.filter((one) => one.blade === blade))
      part.places.forEach((yes, i) => {
        if (yes === 1) taken[i] = taken[i]! + takeMm;
      });
  return taken;
}

/** True thickness less the floor, mm, at every place of a blade where the plan puts strokes. */
function roomsMm(
  plan: Plan,
  blade: Blade,
  floors: FloorTable,
  thickness: (y: number, u: number) => number,
): number[] {
  return [...takenMm(plan, blade)].flatMap((taken, i) => {
    const [y, u] = [grid.ysMm[Math.floor(i / grid.us.length)]!, grid.us[i % grid.us.length]!];
    const floor = floorAt(floors, y, u);
    return taken === 0 || floor === undefined ? [] : [thickness(y, u) - taken - floor];
  });
}

/** Room that is left above the floor at every place with strokes, of one simulated reed. */
function roomsOf({ laid, floorShare, read }: Family, seed: number): { isPlanned: boolean; rooms: number[] } {
  const random = seededRandom(seed);
  const hill = [7 + 8 * random(), 1.2 * random() - 0.6, 2, 0.4, 0.02 + 0.05 * random()];
  const thickness = (blade: Blade, y: number, u: number) =>
    truthAt(blade, y, u, laid.target) - 0.03 + bump(y, u, hill);
  const floors = floorsTimes(laid.style.floors, floorShare);
  const pass = readReed(thickness, seed, undefined, READ[read]!(random));
  const { plan } = planFor(pass, offsetTarget(laid.target, -0.08), { zones: laid.zones, floors });
  const rooms = BLADES.flatMap((blade) => roomsMm(plan, blade, floors, (y, u) => thickness(blade, y, u)));
  return { isPlanned: plan.steps.length > 0, rooms };
}

/**
 * Plans far below what each simulated reed is, so that only the floors hold the knife back, and sets the
 * true thickness after the plan beside the floor. Each reed is 0.03 mm thinner than an invented one of its
 * style, with one thick place of its own, and known to the plan by noisy readings alone; the families take turns.
 */
export function floorsAfterPlans(
  reeds: number,
  firstSeed: number,
  families: readonly Family[] = FAMILIES,
): FloorsAfterPlans {
  let reedsWithSteps = 0;
  const rooms: number[] = [];
  for (let seed = firstSeed; seed < firstSeed + reeds; seed++) {
    const one = roomsOf(families[seed % families.length]!, seed);
    if (one.isPlanned) reedsWithSteps += 1;
    rooms.push(...one.rooms);
  }
  return {
    reedsWithSteps,
    places: rooms.length,
    under: rooms.filter((room) => room < 0).length,
    near: rooms.filter((room) => room < NEAR_MM).length,
  };
}
