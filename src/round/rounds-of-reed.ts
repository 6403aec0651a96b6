import type { Grid, Station } from '../../shared/grid.ts';
import type { Pass, PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { assumedPlanform, halfWidthAt } from '../blade/planform.ts';
import { LONG_SCRAPE, SHORT_SCRAPE } from '../blade/starting-styles.ts';
import { USUAL_OVERALL_MM } from '../reed/overall-lengths.ts';
import { offeredPlans, type OfferedPlan } from './own-plans.ts';
import { roundPlans, USUAL_BLADE_MM, type Scrape } from './round-plans.ts';

const scrapeOf = ({ styleId }: Reed): Scrape => (styleId.startsWith('short') ? 'short' : 'long');

/** Thread to tip, as the last pass has it, or as usual for the reed's style, mm. */
export function bladeLengthOf(reed: Reed, passes: readonly PassFacts[]): number {
  const last = passes.at(-1);
  const threadMm = last?.threadMm ?? reed.tie?.threadMm;
  if (last?.overallLengthMm === undefined || threadMm === undefined) return USUAL_BLADE_MM[scrapeOf(reed)];
  return last.overallLengthMm - threadMm;
}

/** Half the blade's width at a distance from the present tip: the reed's own planform, or the usual one. */
export function halfWidthOf(reed: Reed, passes: readonly PassFacts[]): (fromTipMm: number) => number {
  const overall = (pass: PassFacts | undefined) => pass?.overallLengthMm ?? USUAL_OVERALL_MM;
  const { tipWidthMm } = scrapeOf(reed) === 'short' ? SHORT_SCRAPE : LONG_SCRAPE;
  const planform = reed.planform ?? assumedPlanform(overall(passes[0]), tipWidthMm);
  return (fromTipMm) => halfWidthAt(planform, overall(passes.at(-1)) - fromTipMm);
}

/** Tip to cork end of a new pass, mm: as measured, or as it was less what was clipped; undefined where it is not known. */
export function overallLengthOf(
  { overallLengthMm, clipMm = 0 }: Pick<Pass, 'overallLengthMm' | 'clipMm'>,
  before: readonly PassFacts[],
): number | undefined {
  const last = before.at(-1)?.overallLengthMm;
  return overallLengthMm ?? (last === undefined ? undefined : last - clipMm);
}

/** The rounds offered for a reed. */
export function plansOf(reed: Reed, passes: readonly PassFacts[], own: readonly Grid[]): OfferedPlan[] {
  return offeredPlans(roundPlans(scrapeOf(reed), bladeLengthOf(reed, passes)), own, reed.styleId);
}

/** Every place that is usually read of a reed. */
export function fullMap(reed: Reed, passes: readonly PassFacts[]): readonly Station[] {
  return roundPlans(scrapeOf(reed), bladeLengthOf(reed, passes)).at(-1)!.stations;
}
