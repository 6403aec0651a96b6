import { readCsv, type CsvOutcome } from '../../../src/exchange/csv/read-csv.ts';
import type { CsvAnswers } from '../../../src/exchange/csv/questions.ts';

const encoder = new TextEncoder();

/** Reads one text as a file. */
export function readText(text: string, answers: CsvAnswers = {}): Promise<CsvOutcome> {
  return readCsv([{ name: 'try.csv', bytes: encoder.encode(text), answers }]);
}

/** The parts that a test looks at, or the problems and questions where there are any. */
export function understood(outcome: CsvOutcome) {
  if (outcome.outcome !== 'understood') throw new Error(JSON.stringify(outcome));
  return outcome;
}

export function problemsOf(outcome: CsvOutcome): string[] {
  if (outcome.outcome !== 'refused') throw new Error(`not refused: ${JSON.stringify(outcome)}`);
  return outcome.problems.map(({ where, what }) => `${where}: ${what}`);
}

export function questionsOf(outcome: CsvOutcome) {
  if (outcome.outcome !== 'asks') throw new Error(`nothing asked: ${JSON.stringify(outcome)}`);
  return outcome.questions;
}
