import type { OfferedPlan } from '../../src/round/own-plans.ts';

/** A plan was chosen for a new round. */
export class RoundStartEvent extends Event {
  readonly plan: OfferedPlan;

  constructor(plan: OfferedPlan) {
    super('bench-round-start', { bubbles: true, composed: true });
    this.plan = plan;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-round-start': RoundStartEvent;
  }
}
