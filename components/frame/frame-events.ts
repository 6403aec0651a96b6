/** The next unit of thickness is wanted. */
export class UnitStepEvent extends Event {
  constructor() {
    super('bench-unit-step');
  }
}
