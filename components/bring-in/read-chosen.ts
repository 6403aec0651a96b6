import { FormatError, type Problem } from '../../shared/errors.ts';
import type { FileShape } from '../../shared/settings.ts';
import type { CsvAnswers } from '../../src/exchange/csv/questions.ts';
import type { CsvFile } from '../../src/exchange/csv/read-file.ts';
import type { CsvOutcome } from '../../src/exchange/csv/read-csv.ts';
import type { Reader } from '../../src/incoming/reader.ts';
import type { Ledger } from '../../src/ledger/ledger-face.ts';
import { joinReports, type MergeReport } from '../../src/ledger/merge.ts';
import type { ProgressOptions } from '../../src/ledger/patience.ts';
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
  | { readonly file: File; readonly report: MergeReport }
  | { readonly problems: readonly Problem[] }
);

const NO_ANSWERS: Answers = new Map();

function outcomeOf(reader: Reader, files: readonly CsvFile[], answers: Answers, patience: ProgressOptions) {
  const answered = files.map((file) => {
    const own = answers.get(file.name);
    return { ...file, ...(own && { answers: own }) };
  });
  return reader.readings(answered, patience);
}

/** Reads files as the maker chose them; none of them if one is too large. */
export async function readFiles(
  reader: Reader,
  files: readonly File[],
  remembered: readonly FileShape[],
  patience: ProgressOptions,
): Promise<ReadReadings> {
  const { sizeProblems } = await import('../../src/exchange/csv/file-sizes.ts');
  const problems = sizeProblems(files);
  if (problems.length > 0) {
    const nothing = { files: [], answers: NO_ANSWERS, shapes: new Map(), isAsLastTime: false };
    return { what: 'readings', ...nothing, outcome: { outcome: 'refused', problems } };
  }
  const read = await Promise.all(
    files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
  );
  return readReadings(reader, read, remembered, patience);
}

/** Reads files for the first time; what they leave open is answered from what is remembered. */
export async function readReadings(
  reader: Reader,
  files: readonly CsvFile[],
  remembered: readonly FileShape[],
  patience: ProgressOptions,
): Promise<ReadReadings> {
  const outcome = await outcomeOf(reader, files, NO_ANSWERS, patience);
  const first = { what: 'readings', files, shapes: shapesOf(outcome) } as const;
  const answers = answersFor(outcome, remembered);
  if (answers.size === 0) return { ...first, answers, outcome, isAsLastTime: false };
  return {
    ...first,
    answers,
    outcome: await outcomeOf(reader, files, answers, patience),
    isAsLastTime: true,
  };
}

/** Reads files anew, with other answers. */
export async function readAgain(
  reader: Reader,
  read: ReadReadings,
  answers: Answers,
  patience: ProgressOptions,
): Promise<ReadReadings> {
  const outcome = await outcomeOf(reader, read.files, answers, patience);
  return { ...read, answers, isAsLastTime: false, outcome };
}

/** What is told of a part of a library: the documents themselves are not kept. */
const figuresOf = (report: MergeReport): MergeReport => ({ ...report, disagreements: [] });

/** Reads the file of a whole library, piece by piece, and compares it with the one here. */
export async function readLibrary(
  reader: Reader,
  file: File,
  ledger: Ledger,
  patience: ProgressOptions,
): Promise<ReadLibrary> {
  try {
    const reports: MergeReport[] = [];
    await reader.library(file, patience, async (piece) =>
      reports.push(figuresOf(await ledger.compare(piece))),
    );
    return { what: 'library', file, report: joinReports(reports) };
  } catch (error) {
    if (error instanceof FormatError) return { what: 'library', problems: error.problems };
    throw error;
  }
}
