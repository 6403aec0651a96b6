import * as z from 'zod';
import { readingSchema, type Reading } from '../../../shared/reading.ts';
import { cellProblem, type Cell, type FileProblem } from '../file-problem.ts';
import {
  COLUMN_NAMES,
  COLUMNS,
  passFactsSchema,
  reedFactsSchema,
  type Column,
  type PassFacts,
} from './columns.ts';
import type { FormRow } from './form.ts';
import { parseNumber } from './number-text.ts';
import type { CsvDialect } from './questions.ts';
import { toMm } from './thickness-unit.ts';

/** One reading of a file, checked, with the reed and the pass that it belongs to. */
export interface ReadRow {
  readonly label: string;
  readonly facts: PassFacts;
  readonly reading: Reading;
  readonly source: FormRow;
}

const SCHEMAS = { reed: reedFactsSchema, pass: passFactsSchema, reading: readingSchema };

/** Reads one row; `label` stands in where the file names no reed. Problems are added to `problems`. */
export function readRow(
  row: FormRow,
  writing: CsvDialect,
  label: string,
  problems: FileProblem[],
): ReadRow | undefined {
  const before = problems.length;
  const values = { reed: { label }, pass: { index: 0 }, reading: { repeat: 0, flag: 'ok', role: 'station' } };
  for (const column of COLUMN_NAMES) {
    const cell = row.cells[column];
    if (!cell) continue;
    const { of, field } = COLUMNS[column];
    if (cell.text !== '') Object.assign(values[of], { [field]: valueOf(column, cell, writing, problems) });
    else if (column === 'reed' || column === 'pass') problems.push(refused(column, cell));
  }
  if (Object.keys(row.extra).length > 0) Object.assign(values.reading, { extra: row.extra });
  if (problems.length > before) return undefined;
  const reed = checked(SCHEMAS.reed, values.reed, row, problems);
  const facts = checked(SCHEMAS.pass, values.pass, row, problems);
  const reading = checked(SCHEMAS.reading, values.reading, row, problems);
  return reed && facts && reading && { label: reed.label, facts, reading, source: row };
}

function valueOf(column: Column, cell: Cell, writing: CsvDialect, problems: FileProblem[]): unknown {
  const { holds } = COLUMNS[column];
  if (holds === 'text') return cell.text;
  if (holds === 'word')
    return column === 'blade' ? bladeWord(cell.text) : cell.text.toLowerCase().replace(/\s+/g, '-');
  const step = column === 'across' ? stepNamed(cell.text) : undefined;
  if (step !== undefined) return step;
  const number = parseNumber(cell.text, writing.decimal);
  if (number && column === 'thickness_mm') return toMm(number.value, number.unit ?? writing.unit);
  if (number && (number.unit ?? 'mm') === 'mm') return number.value;
  problems.push(
    refused(column, cell, `a number with a decimal ${writing.decimal}, ${COLUMNS[column].expected}`),
  );
  return undefined;
}

/** Places across by their words and first letters, as the maker sees them: bark side, tip up. */
const STEP_WORDS: Readonly<Record<string, number>> = {
  ...{ 'left edge': -0.8, le: -0.8, left: -0.4, l: -0.4 },
  ...{ middle: 0, centre: 0, center: 0, mid: 0, m: 0, c: 0 },
  ...{ right: 0.4, r: 0.4, 'right edge': 0.8, re: 0.8 },
};

function stepNamed(text: string): number | undefined {
  const word = text.toLowerCase().replace(/[\s_-]+/g, ' ');
  return Object.hasOwn(STEP_WORDS, word) ? STEP_WORDS[word] : undefined;
}

function bladeWord(text: string): string {
  return text.toUpperCase().replace(/^BLADE\s+/, '');
}

function checked<T>(
  schema: z.ZodType<T>,
  values: unknown,
  row: FormRow,
  problems: FileProblem[],
): T | undefined {
  const result = schema.safeParse(values);
  if (result.success) return result.data;
  for (const { path } of result.error.issues) problems.push(issueProblem(row, path));
  return undefined;
}

/** The place of a broken rule: the column whose field it names. */
function issueProblem(row: FormRow, [field, key]: readonly PropertyKey[]): FileProblem {
  const column = COLUMN_NAMES.find((name) => COLUMNS[name].field === field);
  const missing: Cell = { text: '', line: row.line, column: String(key ?? column ?? field) };
  if (column) return refused(column, row.cells[column] ?? missing);
  const text = row.extra[String(key)] ?? '';
  return cellProblem({ ...missing, text }, 'a text of at most 400 characters', 'Shorten it');
}

function refused(column: Column, cell: Cell, expected: string = COLUMNS[column].expected): FileProblem {
  return cellProblem(cell, expected, remedy(column));
}

function remedy(column: Column): string {
  if (column === 'thickness_mm')
    return 'Correct it, name the unit in the heading if it is another, or clear the cell where nothing was read';
  return COLUMNS[column].of === 'reading' && ['blade', 'from_tip_mm', 'across'].includes(column)
    ? 'Correct it'
    : 'Correct it, or clear the cell';
}
