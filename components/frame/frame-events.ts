/** The next unit of thickness is wanted. */
export class UnitStepEvent extends Event {
  constructor() {
    super('bench-unit-step');
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-unit-step': UnitStepEvent;
  }
}
