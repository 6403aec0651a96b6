import type { StationChange } from './grid-cells.ts';

/** Stations were read, cleared or pasted: what each of them holds from now on. One event is one step to undo. */
export class ReadingsChangeEvent extends Event {
  readonly changes: readonly StationChange[];

  constructor(changes: readonly StationChange[]) {
    super('bench-readings-change');
    this.changes = changes;
  }
}

declare global {
  interface HTMLElementEventMap {
    'bench-readings-change': ReadingsChangeEvent;
  }
}
