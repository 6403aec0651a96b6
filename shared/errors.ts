/** A stated rule of a function was broken by its caller. The message reads `name[index]: must ..., got ...`. */
export class InputError extends Error {
  override readonly name = 'InputError';
}

/** The input was legal but has no answer to trust. */
export class IllPosedError extends Error {
  override readonly name = 'IllPosedError';
}

/** One thing wrong in outside data: where it stands and what to do. */
export interface Problem {
  /** Place in words, for example `line 12, column thickness_mm` or `passes.0.readings.3`. */
  readonly where: string;
  /** One sentence. */
  readonly what: string;
}

/** Outside data that cannot be taken in, with every problem found. */
export class FormatError extends Error {
  override readonly name = 'FormatError';
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[], options?: ErrorOptions) {
    super(problems.map(({ where, what }) => `${where}: ${what}`).join('\n'), options);
    this.problems = problems;
  }
}
