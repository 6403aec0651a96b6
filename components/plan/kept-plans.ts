import type { Id } from '../../shared/ids.ts';
import type { Pass } from '../../shared/pass.ts';
import type { ScrapePlan } from '../../shared/scrape-plan.ts';
import type { ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { passAfter, planContent } from '../../src/plan/kept-plan.ts';
import { strokesFor, yieldIn, type KnifeInHand } from '../../src/plan/knife-yield.ts';
import type { MadePlan } from '../../src/plan/make-plan.ts';
import type { Step } from '../../src/plan/step.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** Every plan that was taken up for a reed. */
export function plansOf(store: LibraryStore | undefined, reedId: Id | undefined): readonly ScrapePlan[] {
  return (store?.snapshot.live['scrape-plan'] ?? []).filter((plan) => plan.reedId === reedId);
}

/** Plans around a pass. */
export interface KeptPlans {
  /** The newest that was made from it. */
  readonly made?: ScrapePlan;
  /** The newest that it came after. */
  readonly done?: ScrapePlan;
}

export function plansAround(plans: readonly ScrapePlan[], passes: readonly Pass[], pass: number): KeptPlans {
  const made = plans.findLast(({ afterPass }) => afterPass === passes[pass]?.index);
  const done = plans.findLast((plan) => passAfter(plan, passes) === pass);
  return { ...(made && { made }), ...(done && { done }) };
}

/** Keeps one step of a plan as what the next pass is to be set beside. */
export async function takeUp(
  store: LibraryStore,
  own: ReedAtPass,
  { target }: MadePlan,
  step: Step,
  { name, known }: KnifeInHand,
): Promise<void> {
  const strokesOf = (one: Step) => {
    const region = yieldIn(known, one.zone);
    return region && strokesFor(one.takeMm, region);
  };
  const content = planContent(own, target.name, target.grid, [step], strokesOf, name);
  await store.keep([content], `a plan for ${own.benched.reed.label}`);
}
