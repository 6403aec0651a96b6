import { FormatError, type Problem } from '../../shared/errors.ts';
import type { FileShape } from '../../shared/settings.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { CsvFile } from '../../src/exchange/csv/read-file.ts';
import type { CsvOutcome } from '../../src/exchange/csv/read-csv.ts';
import type { Ledger } from '../../src/ledger/ledger.ts';
import type { Patience } from '../../src/ledger/library-file.ts';
import type { MergeReport } from '../../src/ledger/merge.ts';
import type { WholeLibrary } from '../../src/ledger/store-library.ts';
import { answersFor, shapesOf } from './remembered-answers.ts';

export type Answers = ReadonlyMap<string, CsvAnswers>;

/** Readings as they were understood, and what that rests on. */
export interface ReadReadings {
  readonly what: 'readings';
  readonly files: readonly CsvFile[];
  readonly answers: Answers;
  readonly outcome: CsvOutcome;
  /** Shape of each file, as it was before anything was answered. */
  readonly shapes: ReadonlyMap<string, string>;
  /** What was left open was answered as last time with a file of the same shape. */
  readonly isAsLastTime: boolean;
}

/** A whole library and what it would add, or why it cannot be brought in. */
export type ReadLibrary = { readonly what: 'library' } & (
  { readonly whole: WholeLibrary; readonly report: MergeReport } | { readonly problems: readonly Problem[] }
);

async function outcomeOf(files: readonly CsvFile[], answers: Answers, { signal, onProgress }: Patience) {
  const { readCsv } = await import('../../src/exchange/csv/read-csv.ts');
  const answered = files.map((file) => {
    const own = answers.get(file.name);
    return { ...file, ...(own && { answers: own }) };
  });
  return readCsv(answered, { ...(signal && { signal }), ...(onProgress && { progress: onProgress }) });
}

/** Bytes of files as the maker chose them. */
export function bytesOf(files: readonly File[]): Promise<CsvFile[]> {
  return Promise.all(
    files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
  );
}

/** Reads files for the first time; what they leave open is answered from what is remembered. */
export async function readReadings(
  files: readonly CsvFile[],
  remembered: readonly FileShape[],
  patience: Patience,
): Promise<ReadReadings> {
  const none: Answers = new Map();
  const outcome = await outcomeOf(files, none, patience);
  const first = { what: 'readings', files, shapes: shapesOf(outcome) } as const;
  const answers = answersFor(outcome, remembered);
  if (answers.size === 0) return { ...first, answers, outcome, isAsLastTime: false };
  return { ...first, answers, outcome: await outcomeOf(files, answers, patience), isAsLastTime: true };
}

/** Reads files anew, with other answers. */
export async function readAgain(
  read: ReadReadings,
  answers: Answers,
  patience: Patience,
): Promise<ReadReadings> {
  return { ...read, answers, isAsLastTime: false, outcome: await outcomeOf(read.files, answers, patience) };
}

/** Reads the file of a whole library and compares it with the one here. */
export async function readLibrary(file: File, ledger: Ledger, patience: Patience): Promise<ReadLibrary> {
  const { readBackup } = await import('../../src/ledger/bundle.ts');
  try {
    const whole = await readBackup(new Uint8Array(await file.arrayBuffer()), patience);
    return { what: 'library', whole, report: await ledger.compare(whole) };
  } catch (error) {
    if (error instanceof FormatError) return { what: 'library', problems: error.problems };
    throw error;
  }
}
