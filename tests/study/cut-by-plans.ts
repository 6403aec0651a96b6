import { BLADES, type Blade } from '../../shared/blade.ts';
import { isInPolygon } from '../../src/numerics/polygon.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { closedPlaces } from '../../src/plan/closed-places.ts';
import { excessOver, type ExcessMap } from '../../src/plan/excess.ts';
import { roomAbove } from '../../src/plan/floor-room.ts';
import { followedReed, planTowards, type MadePlan } from '../../src/plan/make-plan.ts';
import { USUAL_MARGIN_MM } from '../../src/plan/next-strokes.ts';
import type { Step } from '../../src/plan/step.ts';
import { targetFromReed } from '../../src/plan/target.ts';
import { mapGrid, type MapGrid } from '../../src/figures/surface-map.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import type { FitPass } from '../../src/surface/reed-model.ts';
import { seededRandom } from '../seeded-random.ts';
import { bump, LONG, readReed, SHORT, truthAt, type PlannedStyle, type Stations } from './planned-reed.ts';

/** What was found in simulated plans at the places inside the outlines of all their steps, looked at finer than they were drawn. */
export interface CutByPlans {
  readonly plans: number;
  readonly plansWithSteps: number;
  readonly steps: number;
  readonly places: number;
  /** Where the excess is not measurable, beside what can be a rounding of the outline's own line. */
  readonly notMeasurable: number;
  /** Where the strokes would not leave the lower limit of the thickness above the floor. */
  readonly intoFloor: number;
  /** Nearer than the margin to a floor or a sure lack. */
  readonly nearerThanMargin: number;
  /** Steps that ask for more than half of the excess that is shown beside them, on both blades or on one. */
  readonly moreThanHalf: number;
  /** Where the cane truly ends under what the favourite truly is. */
  readonly under: number;
}

/** The border of the measurable, but for how far a straight line between two places of the plan's grid may stray from it. */
const MEASURABLE = 0.99;
const FINE: MapGrid = mapGrid(23, 231, 121);

/** A reed of a style that is known by noisy readings of a true thickness alone. */
function reedOf({ style, reed }: PlannedStyle, pass: FitPass): ReedAtPass {
  const { assembled } = reed.benched;
  const frame = { ...assembled.frame, lengths: style.lengths, overallLengthMm: pass.overallLengthMm };
  const benched = {
    ...reed.benched,
    passes: reed.benched.passes.slice(0, 1),
    assembled: { ...assembled, frame, passes: [pass], controls: [[]] },
    model: fitReed([pass]),
  };
  return { benched, pass: 0 };
}

/** Hills and hollows of a reed over its favourite, mm. */
function hillsOf(random: () => number): (blade: Blade, y: number, u: number) => number {
  const count = 2 + Math.floor(3 * random());
  const hills = Array.from({ length: count }, () => ({
    blades: random() < 0.5 ? BLADES : [random() < 0.5 ? ('A' as const) : ('B' as const)],
    shape: [
      1 + 18 * random(),
      1.8 * random() - 0.9,
      1 + 3 * random(),
      0.15 + 0.5 * random(),
      0.12 * random() - 0.04,
    ],
  }));
  const over = 0.02 * random() - 0.005;
  return (blade, y, u) =>
    hills.reduce((sum, { blades, shape }) => sum + (blades.includes(blade) ? bump(y, u, shape) : 0), over);
}

const READ: readonly ((random: () => number) => Stations)[] = [
  () => () => true,
  (random) => () => random() > 0.3,
  (random) => {
    const toMm = 8 + 8 * random();
    return (_, y) => y <= toMm;
  },
];

interface Simulated {
  readonly own: ReedAtPass;
  readonly favourite: ReedAtPass;
  readonly made: MadePlan;
  readonly trueExcess: (blade: Blade, y: number, u: number) => number;
}

/** One maker's reed, its favourite, and the plan: the way that every screen takes. */
export function simulatedPlan(seed: number): Simulated {
  const random = seededRandom(seed);
  const laid = seed % 2 === 0 ? LONG : SHORT;
  const trueExcess = hillsOf(random);
  const truth = (blade: Blade, y: number, u: number) => truthAt(blade, y, u, laid.target);
  const read = READ[seed % READ.length]!(random);
  const thickness = (blade: Blade, y: number, u: number) => truth(blade, y, u) + trueExcess(blade, y, u);
  const own = reedOf(laid, readReed(thickness, 2 * seed + 1, 0.005, read));
  const favourite = reedOf(laid, readReed(truth, 2 * seed + 2, 0.005));
  return { own, favourite, made: planTowards(own, followedReed(favourite)), trueExcess };
}

/** The same excess on the finer grid: with the bench's own factor, which belongs to the blade and not to the grid. */
function fineExcess({ own, favourite }: Simulated): Partial<Record<Blade, ExcessMap>> {
  return excessOver(own.benched.model!, 0, targetFromReed(favourite, FINE));
}

/** Numbers of the fine grid's places that lie inside a step on one blade. */
function inside(step: Step, blade: Blade): { y: number; u: number; at: number }[] {
  const { outlines } = step.parts.find((part) => part.blade === blade)!;
  const isIn = (y: number, u: number) =>
    outlines.reduce((inside, outline) => inside !== isInPolygon(outline, y, u), false);
  return FINE.ysMm.flatMap((y, row) =>
    FINE.us.flatMap((u, column) => (isIn(y, u) ? [{ y, u, at: row * FINE.us.length + column }] : [])),
  );
}

type Counts = { -readonly [Key in keyof CutByPlans]: number };

function countStep(counts: Counts, simulated: Simulated, step: Step, fine: ReturnType<typeof fineExcess>) {
  const { own, trueExcess } = simulated;
  const { style, passes } = own.benched.assembled;
  const { halfWidthMm } = passes[0]!;
  counts.steps += 1;
  if ([step, ...step.parts].some(({ excess }) => step.takeMm > excess.valueMm / 2 + 1e-9))
    counts.moreThanHalf += 1;
  for (const { blade } of step.parts) {
    const map = fine[blade]!;
    const room = roomAbove(map, style.floors, halfWidthMm);
    const closed = closedPlaces(own.benched, 0).filter((place) => place.blade === blade);
    const lacks = FINE.ysMm.flatMap((y, row) =>
      FINE.us.flatMap((u, column) => (map.told[row * FINE.us.length + column]! < -1 ? [{ y, u }] : [])),
    );
    const kept = [...closed.map(({ fromTipMm: y, across: u }) => ({ y, u })), ...lacks];
    for (const { y, u, at } of inside(step, blade)) {
      counts.places += 1;
      if (!(map.told[at]! > MEASURABLE)) counts.notMeasurable += 1;
      if (room.mm[at]! < step.takeMm) counts.intoFloor += 1;
      if (kept.some((place) => Math.hypot(place.y - y, (place.u - u) * halfWidthMm(y)) < USUAL_MARGIN_MM))
        counts.nearerThanMargin += 1;
      if (trueExcess(blade, y, u) < step.takeMm) counts.under += 1;
    }
  }
}

/** Plans for simulated reeds of both styles, read whole, raggedly or in part, towards favourites that are known no better. */
export function cutByPlans(plans: number, firstSeed: number): CutByPlans {
  const counts: Counts = {
    ...{ plans, plansWithSteps: 0, steps: 0, places: 0, notMeasurable: 0, intoFloor: 0 },
    ...{ nearerThanMargin: 0, moreThanHalf: 0, under: 0 },
  };
  for (let seed = firstSeed; seed < firstSeed + plans; seed++) {
    const simulated = simulatedPlan(seed);
    const { steps } = simulated.made.plan;
    if (steps.length === 0) continue;
    counts.plansWithSteps += 1;
    const fine = fineExcess(simulated);
    for (const step of steps) countStep(counts, simulated, step, fine);
  }
  return counts;
}
