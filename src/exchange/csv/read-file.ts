import { FormatError } from '../../../shared/errors.ts';
import type { ThicknessUnit } from '../../../shared/units.ts';
import type { FileProblem } from '../file-problem.ts';
import { decodeText } from '../text.ts';
import type { FiledRow } from './drafts.ts';
import type { Form } from './form.ts';
import { headingRow, longForm } from './long-form.ts';
import type { DecimalSign } from './number-text.ts';
import { decideWriting, type CsvAnswers, type CsvQuestion, type Writing } from './questions.ts';
import { readRow } from './read-rows.ts';
import { decideDelimiter, splitTable, type Delimiter, type Pause } from './table.ts';
import { hasBlock, wideForm } from './wide-form.ts';

/** A file to read, and what the maker said of it. */
export interface CsvFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly answers?: CsvAnswers;
}

/** How a file was read. */
export interface CsvFileFacts extends Pick<Form, 'form' | 'headings' | 'columns' | 'unread' | 'blanks'> {
  readonly name: string;
  readonly delimiter: Delimiter;
  /** The same for files with the same form, headings and delimiter: answers are remembered by it. */
  readonly shape: string;
  /** Absent while it is open, and where no number has a decimal sign. */
  readonly decimal?: DecimalSign;
  /** Absent while it is open. */
  readonly unit?: ThicknessUnit;
}

export interface FileReading {
  readonly facts: CsvFileFacts;
  readonly question?: CsvQuestion;
  readonly rows: readonly FiledRow[];
}

/** Largest CSV file, in bytes. */
export const MAX_CSV_BYTES = 2e6;
const ROWS_A_SLICE = 2000;

/** Reads one file. Its problems go to `report`; with any of them, its rows count for nothing. */
export async function readFile(
  file: CsvFile,
  pause: Pause,
  report: (problem: FileProblem) => void,
): Promise<FileReading | undefined> {
  try {
    return await readText(file, decodeText(file.bytes, MAX_CSV_BYTES), pause, report);
  } catch (error) {
    if (!(error instanceof FormatError)) throw error;
    error.problems.forEach(report);
    return undefined;
  }
}

async function readText(
  file: CsvFile,
  text: string,
  pause: Pause,
  report: (problem: FileProblem) => void,
): Promise<FileReading> {
  const { name, answers = {} } = file;
  const choice = answers.columns ?? {};
  const delimiter = decideDelimiter(text, (rows) => headingRow(rows, choice) >= 0);
  const table = await splitTable(text, delimiter, (fraction) => pause(fraction / 2));
  const at = headingRow(table, choice);
  const form = at < 0 && hasBlock(table) ? wideForm(table) : longForm(table, Math.max(0, at), choice);
  if (form.problems.length > 0) throw new FormatError(form.problems);
  const facts = fileFacts(name, delimiter, form);
  const writing = decideWriting(name, form, delimiter, answers);
  if ('about' in writing) return { facts, question: writing, rows: [] };
  const rows = await readRows(file, form, writing, (fraction) => pause((1 + fraction) / 2), report);
  const { decimal, decimalSeen, unit } = writing;
  return { facts: { ...facts, unit, ...(decimalSeen && { decimal }) }, rows };
}

function fileFacts(
  name: string,
  delimiter: Delimiter,
  { form, headings, columns, unread, blanks }: Form,
): CsvFileFacts {
  const shape = JSON.stringify([form, delimiter, ...headings]);
  return { name, form, delimiter, shape, headings, columns, unread, blanks };
}

async function readRows(
  { name, answers }: CsvFile,
  form: Form,
  writing: Writing,
  pause: Pause,
  report: (problem: FileProblem) => void,
): Promise<FiledRow[]> {
  const rows: FiledRow[] = [];
  const problems: FileProblem[] = [];
  const file = { name, hasRepeats: form.hasRepeats };
  for (const [i, formRow] of form.rows.entries()) {
    const row = readRow(formRow, writing, answers?.label ?? '', problems);
    if (row) rows.push({ ...row, file });
    if (i % ROWS_A_SLICE === ROWS_A_SLICE - 1) await pause(i / form.rows.length);
  }
  problems.forEach(report);
  await pause(1);
  return rows;
}
