import type { Remedy } from '../../shared/remedy.ts';

/** The maker takes a remedy for a fault of the shown pass. */
export class FaultRemedyEvent extends Event {
  readonly remedy: Remedy;

  constructor(remedy: Remedy) {
    super('bench-fault-remedy');
    this.remedy = remedy;
  }
}

/** The maker takes a remedy back: the pass counts as it was read. */
export class FaultTakeBackEvent extends Event {
  /** Place in the pass's remedies. */
  readonly at: number;

  constructor(at: number) {
    super('bench-fault-take-back');
    this.at = at;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-fault-remedy': FaultRemedyEvent;
    'bench-fault-take-back': FaultTakeBackEvent;
  }
}
