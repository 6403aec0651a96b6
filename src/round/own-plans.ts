import type { Grid } from '../../shared/grid.ts';
import type { RoundPlan } from './round-plans.ts';

/** A round to choose from: one to start from, or the maker's own, which may stand in for one of the same name. */
export interface OfferedPlan
  extends RoundPlan, Partial<Pick<Grid, 'order' | 'bladeByBlade' | 'sameSideFirst'>> {
  /** The maker's own grid; absent for one to start from. */
  readonly own?: Grid;
}

/**
 * The rounds offered for a style: those to start from, each replaced by the maker's own of the same name, and then the
 * maker's others. A grid without a style is for every style.
 */
export function offeredPlans(
  starting: readonly RoundPlan[],
  own: readonly Grid[],
  styleId: string,
): OfferedPlan[] {
  const mine = own
    .filter((grid) => grid.styleId === undefined || grid.styleId === styleId)
    .map(({ name, stations, order, bladeByBlade, sameSideFirst }, i, grids): OfferedPlan => ({
      name,
      stations,
      order,
      bladeByBlade,
      sameSideFirst,
      own: grids[i]!,
    }));
  const standIn = (name: string) => mine.find((plan) => plan.name === name);
  const isNew = ({ name }: RoundPlan) => !starting.some((plan) => plan.name === name);
  return [...starting.map((plan) => standIn(plan.name) ?? plan), ...mine.filter(isNew)];
}
