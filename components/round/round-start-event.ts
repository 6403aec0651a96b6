import type { Round } from '../../shared/round.ts';
import type { OfferedPlan } from '../../src/round/own-plans.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** A plan was chosen for a new round. */
export class RoundStartEvent extends Event {
  readonly plan: OfferedPlan;
  /** What a short round is to answer, and how surely. */
  readonly short: Round['short'];

  constructor(plan: OfferedPlan, short?: Round['short']) {
    super('bench-round-start', ACROSS_SHADOWS);
    this.plan = plan;
    this.short = short;
  }
}
