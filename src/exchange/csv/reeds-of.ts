import { FormatError } from '../../../shared/errors.ts';
import type { ReedDraft } from './drafts.ts';
import type { CsvAnswers, CsvQuestion } from './questions.ts';
import { readCsv, type CsvOptions, type CsvOutcome } from './read-csv.ts';

/** What files leave open, as an error: `questions` says what may be answered. */
export class OpenQuestionsError extends FormatError {
  readonly questions: readonly CsvQuestion[];

  constructor(questions: readonly CsvQuestion[]) {
    super(questions.map(({ file, sentence }) => ({ where: file, what: sentence })));
    this.questions = questions;
  }
}

/**
 * The reeds of an outcome.
 *
 * @throws OpenQuestionsError for what has to be answered, FormatError with every problem of what was refused.
 */
export function reedsOf(outcome: CsvOutcome): readonly ReedDraft[] {
  if (outcome.outcome === 'asks') throw new OpenQuestionsError(outcome.questions);
  if (outcome.outcome === 'refused') throw new FormatError(outcome.problems);
  return outcome.reeds;
}

export interface ReadReedsOptions extends CsvOptions, CsvAnswers {
  /** What problems call the file by. */
  readonly name?: string;
}

/**
 * Reads one file of readings.
 *
 * @param csv The file's text, or its bytes, at most 2 MB.
 * @param options Answers to what the file leaves open (`unit`, `decimal`, `label`, ...), `name`, `signal`, `progress`.
 * @returns Its reeds in the order in which the file names them, thicknesses in mm.
 * @throws OpenQuestionsError for what the file leaves open, FormatError with every problem and its place.
 */
export async function readReeds(
  csv: string | Uint8Array,
  { name = 'file', signal, progress, ...answers }: ReadReedsOptions = {},
): Promise<readonly ReedDraft[]> {
  const bytes = typeof csv === 'string' ? new TextEncoder().encode(csv) : csv;
  const options = { ...(signal && { signal }), ...(progress && { progress }) };
  return reedsOf(await readCsv([{ name, bytes, answers }], options));
}
