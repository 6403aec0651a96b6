import { BLADES, type Blade } from '../../shared/blade.ts';
import type { PlannedStep, ScrapePlan } from '../../shared/scrape-plan.ts';
import type { Stamp } from '../../shared/stamp.ts';
import type { ReedAtPass } from '../answers/fitted-reed.ts';
import type { MapGrid } from '../figures/surface-map.ts';
import type { Step } from './step.ts';

/** What a plan is kept as, without its stamp. */
export type PlanContent = Omit<ScrapePlan, keyof Stamp>;

/** Puts a plan into the form in which it is kept. @param strokes How many strokes a step is to take, where that is known. */
export function planContent(
  { benched, pass }: ReedAtPass,
  towards: string,
  { ysMm, us }: MapGrid,
  steps: readonly Step[],
  strokes: (step: Step) => number | undefined,
  knife?: string,
): PlanContent {
  return {
    kind: 'scrape-plan',
    reedId: benched.reed.id,
    afterPass: benched.passes[pass]!.index,
    towards: towards.slice(0, 80),
    ...(knife && { knife }),
    ysMm: [...ysMm],
    us: [...us],
    steps: steps.map((step) => plannedStep(step, us.length, strokes(step))),
  };
}

function plannedStep(step: Step, columns: number, strokes: number | undefined): PlannedStep {
  const {
    zone,
    title,
    side,
    stretch: [fromMm, toMm],
    takeMm,
    excess: { valueMm: excessMm, uMm },
  } = step;
  const rowsOf = (places: Uint8Array) =>
    Array.from({ length: places.length / columns }, (_, row) =>
      places.subarray(row * columns, (row + 1) * columns).join(''),
    );
  return {
    ...{ zone, title, side, fromMm, toMm, takeMm, excessMm, uMm },
    ...(strokes !== undefined && { strokes }),
    places: step.parts.map(({ blade, places }) => ({ blade, rows: rowsOf(places) })),
  };
}

/** A kept step with its places as the core reckons with them. */
export interface MeantStep extends Omit<PlannedStep, 'places'> {
  readonly blades: readonly Blade[];
  readonly places: Readonly<Partial<Record<Blade, Uint8Array>>>;
}

/** The steps of a kept plan. */
export function meantSteps({ steps }: Pick<ScrapePlan, 'steps'>): MeantStep[] {
  return steps.map(({ places, ...step }) => ({
    ...step,
    blades: BLADES.filter((name) => places.some(({ blade }) => blade === name)),
    places: Object.fromEntries(
      places.map(({ blade, rows }) => [blade, Uint8Array.from(rows.join(''), Number)]),
    ),
  }));
}

/** The first pass that was read after a plan was made; undefined while there is none. */
export function passAfter(
  plan: Pick<ScrapePlan, 'afterPass'>,
  passes: readonly { readonly index: number; readonly readings: readonly unknown[] }[],
): number | undefined {
  const at = passes.findIndex(({ index, readings }) => index > plan.afterPass && readings.length > 0);
  return at < 0 ? undefined : at;
}
