import type { OfferedPlan } from '../../src/round/own-plans.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** A plan was chosen for a new round. */
export class RoundStartEvent extends Event {
  readonly plan: OfferedPlan;

  constructor(plan: OfferedPlan) {
    super('bench-round-start', ACROSS_SHADOWS);
    this.plan = plan;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-round-start': RoundStartEvent;
  }
}
