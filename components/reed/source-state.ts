import type { CsvQuestion } from '../../src/exchange/csv/questions.ts';
import type { Given } from './given.ts';
import type { FittedSoFar } from './shared-fits.ts';

/** What is wanted: which reed of which readings, with whose zones. */
export interface Wish {
  readonly given: Given;
  /** The label of the reed; the first one where it is blank. */
  readonly label: string;
  readonly styleId: string;
}

export type SourceState =
  | { readonly is: 'empty' }
  | { readonly is: 'reading' }
  | { readonly is: 'stopped' }
  | { readonly is: 'fitting'; readonly label: string }
  | { readonly is: 'asks'; readonly questions: readonly CsvQuestion[] }
  | { readonly is: 'refused'; readonly problems: readonly string[] }
  | ({ readonly is: 'fitted'; readonly labels: readonly string[] } & FittedSoFar);
