import type { FittedReed } from '../../src/answers/fitted-reed.ts';

/** A reed was read and fitted, and is shown; once more where faults of its passes widen its figures. */
export class ReedFitEvent extends Event {
  readonly reed: FittedReed;
  constructor(reed: FittedReed) {
    super('bench-reed-fit');
    this.reed = reed;
  }
}

/** The readings were not understood, or leave something open: the element shows the same sentences. */
export class ReedProblemEvent extends Event {
  readonly problems: readonly string[];
  constructor(problems: readonly string[]) {
    super('bench-reed-problem');
    this.problems = problems;
  }
}
