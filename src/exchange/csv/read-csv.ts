import type { FileProblem } from '../file-problem.ts';
import { gatherDrafts, type ReedDraft } from './drafts.ts';
import type { CsvQuestion } from './questions.ts';
import { readFile, type CsvFile, type CsvFileFacts, type FileReading } from './read-file.ts';
import type { Pause } from './table.ts';
import { summarise, type Understood } from './understood.ts';

export type CsvOutcome =
  | {
      readonly outcome: 'understood';
      readonly understood: Understood;
      readonly reeds: readonly ReedDraft[];
      readonly files: readonly CsvFileFacts[];
    }
  | {
      readonly outcome: 'asks';
      readonly questions: readonly CsvQuestion[];
      readonly files: readonly CsvFileFacts[];
    }
  | { readonly outcome: 'refused'; readonly problems: readonly FileProblem[] };

export interface CsvOptions {
  /** Stops the work: the promise is then rejected with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Told how far the work is, from 0 to 1. */
  readonly progress?: (fraction: number) => void;
}

const MAX_PROBLEMS = 50;

/**
 * Reads makers' CSV files together: long form (one reading a row) or a sheet, comma, semicolon or tab, decimal point
 * or comma, hundredths, mm or thousandths. All or nothing: either every row of every file is understood, or the
 * outcome says what has to be answered or put right, each with its place. Nothing that the files leave open is guessed.
 */
export async function readCsv(files: readonly CsvFile[], options: CsvOptions = {}): Promise<CsvOutcome> {
  const problems: FileProblem[] = [];
  const report = (name: string, problem: FileProblem) => {
    problems.push(files.length > 1 ? { ...problem, where: `${name}, ${problem.where}` } : problem);
  };
  const readings: FileReading[] = [];
  for (const [i, file] of files.entries()) {
    const pause = pauses(options, (fraction) => (i + fraction) / files.length);
    const reading = await readFile(file, pause, (problem) => report(file.name, problem));
    if (reading) readings.push(reading);
  }
  if (problems.length > MAX_PROBLEMS) return { outcome: 'refused', problems: theFirst(problems) };
  const questions = readings.flatMap(({ question }) => question ?? []);
  const reeds = gatherDrafts(
    readings.flatMap(({ rows }) => rows),
    ({ name }, problem) => report(name, problem),
  );
  const facts = readings.map((reading) => reading.facts);
  if (problems.length > 0) return { outcome: 'refused', problems: theFirst(problems) };
  if (questions.length > 0) return { outcome: 'asks', questions, files: facts };
  if (reeds.length === 0)
    return {
      outcome: 'refused',
      problems: [{ where: 'file', what: 'There is no reading in it. Choose a file with readings.' }],
    };
  return { outcome: 'understood', understood: summarise(reeds, facts), reeds, files: facts };
}

/** Each problem once, and not more of them than anybody reads. */
function theFirst(problems: readonly FileProblem[]): FileProblem[] {
  const different = [
    ...new Map(problems.map((problem) => [`${problem.where}: ${problem.what}`, problem])).values(),
  ];
  const rest = different.length - MAX_PROBLEMS;
  if (rest <= 0) return different;
  const more = { where: 'further on', what: `There are ${rest} more problems. Put these right first.` };
  return [...different.slice(0, MAX_PROBLEMS), more];
}

/** Lets other work go on between the slices of a long task, and stops it when it is told to. */
function pauses({ signal, progress }: CsvOptions, overall: (fraction: number) => number): Pause {
  return async (fraction) => {
    signal?.throwIfAborted();
    progress?.(overall(fraction));
    if (fraction > 0 && fraction < 1) await new Promise((resolve) => setTimeout(resolve));
  };
}
