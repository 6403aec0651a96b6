import { withoutHidden } from '../../words/hidden-characters.ts';
import { FormatError } from '../../../shared/errors.ts';
import type { ThicknessUnit } from '../../../shared/units.ts';
import type { FileProblem } from '../file-problem.ts';
import { decodeText } from '../text.ts';
import type { FiledRow } from './drafts.ts';
import type { Form, FormRow } from './form.ts';
import { headingRow } from './long-form.ts';
import type { DecimalSign } from './number-text.ts';
import { decideWriting, type CsvAnswers, type CsvQuestion, type CsvDialect } from './questions.ts';
import { readRow, type ReadRow } from './read-rows.ts';
import { formOf, type Sheet } from './sheet-forms.ts';
import { decideDelimiter, splitTable, type Delimiter, type Pause } from './table.ts';

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
  /** Says which pass its readings are of. */
  readonly isNumbered: boolean;
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
  const sheet: Sheet = { file: name, table, headingsAt: headingRow(table, choice), delimiter, answers };
  const { asks, read } = formOf(sheet);
  const form = read(sheet);
  if (form.problems.length > 0) throw new FormatError(form.problems);
  const facts = fileFacts(name, delimiter, form);
  const asked = asks?.(sheet);
  if (asked) return { facts, question: asked, rows: [] };
  const writing = decideWriting(name, form, delimiter, answers);
  if ('about' in writing) return { facts, question: writing, rows: [] };
  const rows = await readRows(file, form, writing, (fraction) => pause((1 + fraction) / 2), report);
  const { decimal, decimalSeen, unit } = writing;
  // Whole lines that were left open are missing, too.
  const blanks = facts.blanks + form.rows.length - rows.length;
  return { facts: { ...facts, blanks, unit, ...(decimalSeen && { decimal }) }, rows };
}

function fileFacts(
  name: string,
  delimiter: Delimiter,
  { form, size, rows, headings, columns, unread, blanks }: Form,
): CsvFileFacts {
  const shape = JSON.stringify([form, delimiter, ...headings, ...(size ?? [])]);
  const isNumbered = rows.some(({ cells }) => cells.pass !== undefined);
  return { name, form, delimiter, shape, headings, columns, unread, blanks, isNumbered };
}

/** A row with what is at fault in its thickness left open; nothing where its place itself cannot be read. */
function readOpenly(row: FormRow, writing: CsvDialect, label: string): ReadRow | undefined {
  const whole = readRow(row, writing, label, []);
  const { thickness_mm: thickness, ...cells } = row.cells;
  return whole ?? (thickness && readRow({ ...row, cells }, writing, label, []));
}

async function readRows(
  { name, answers }: CsvFile,
  form: Form,
  writing: CsvDialect,
  pause: Pause,
  report: (problem: FileProblem) => void,
): Promise<FiledRow[]> {
  const rows: FiledRow[] = [];
  const problems: FileProblem[] = [];
  const label = answers?.label ?? '';
  const read = (row: FormRow) =>
    answers?.openCells === 'not read'
      ? readOpenly(row, writing, label)
      : readRow(row, writing, label, problems);
  const file = { name, hasRepeats: form.hasRepeats };
  for (const [i, formRow] of form.rows.entries()) {
    const row = read(formRow);
    if (row)
      rows.push({
        ...row,
        label: answers?.hidden === 'leave them out' ? withoutHidden(row.label) : row.label,
        file,
      });
    if (i % ROWS_A_SLICE === ROWS_A_SLICE - 1) await pause(i / form.rows.length);
  }
  problems.forEach(report);
  await pause(1);
  return rows;
}
