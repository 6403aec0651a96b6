import { FormatError, IllPosedError, InputError } from '../../shared/errors.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import { OpenQuestionsError } from '../../src/exchange/csv/reeds-of.ts';
import { readGiven } from './given.ts';
import { sharedFit } from './shared-fits.ts';
import type { SourceState, Wish } from './source-state.ts';

function chosen(reeds: readonly ReedDraft[], label: string): ReedDraft {
  const reed = label === '' ? reeds[0] : reeds.find((one) => one.label === label);
  if (reed) return reed;
  const there = reeds.map((one) => one.label).join(', ');
  throw new InputError(`There is no reed ${label} in these readings; there is ${there}.`);
}

/** What went wrong, as it is said to the reader; a fault of the program is thrown on. */
function stateOf(error: unknown): SourceState {
  if (error instanceof OpenQuestionsError) return { is: 'asks', questions: error.questions };
  if (error instanceof FormatError)
    return { is: 'refused', problems: error.problems.map(({ where, what }) => `${where}: ${what}`) };
  if (error instanceof InputError || error instanceof IllPosedError)
    return { is: 'refused', problems: [error.message] };
  throw error;
}

/** Reads and fits what is wanted: every state on the way, the last one once nothing more is to come. */
export async function* followReed(
  { given, label, styleId }: Wish,
  answers: CsvAnswers,
  signal: AbortSignal,
): AsyncGenerator<SourceState> {
  try {
    const reeds = await readGiven(given, answers, signal);
    const reed = chosen(reeds, label);
    yield { is: 'fitting', label: reed.label };
    const labels = reeds.map((one) => one.label);
    for await (const soFar of sharedFit(reed, styleId, signal)) yield { is: 'fitted', labels, ...soFar };
  } catch (error) {
    if (!signal.aborted) yield stateOf(error);
  }
}
