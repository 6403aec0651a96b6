const MEANT_FOR_THE_APP: EventInit = { bubbles: true, composed: true };

/** The next unit of thickness is wanted. */
export class UnitStepEvent extends Event {
  constructor() {
    super('bench-unit-step', MEANT_FOR_THE_APP);
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-unit-step': UnitStepEvent;
  }
}
