import Papa from 'papaparse';
import type { Reading } from '../../../shared/reading.ts';
import { COLUMN_NAMES, COLUMNS, type Column } from './columns.ts';
import type { PassDraft, ReedDraft } from './drafts.ts';
import { csvOf, type CsvForm } from './in-parts.ts';
import { numberText, type DecimalSign } from './number-text.ts';
import { ownHeading, shielded } from './own-text.ts';

/** Columns that are left out where every reading has this value. */
const USUAL: Readonly<Partial<Record<Column, unknown>>> = { repeat: 0, flag: 'ok', role: 'station' };
const ALWAYS: readonly Column[] = [
  'reed',
  'pass',
  'overall_length_mm',
  'state',
  'blade',
  'from_tip_mm',
  'across',
  'thickness_mm',
];

interface Line {
  readonly label: string;
  readonly pass: PassDraft;
  readonly reading: Reading;
}

/** What the rows of the long form need: columns that stand besides those that always do, and the maker's own headings. */
interface LongLayout {
  readonly unusual: ReadonlySet<Column>;
  readonly headings: ReadonlySet<string>;
}

const linesOf = ({ label, passes }: ReedDraft): readonly Line[] =>
  inOrder(passes).flatMap((pass) => pass.readings.map((reading) => ({ label, pass, reading })));
const columnsOf = ({ unusual }: LongLayout) =>
  COLUMN_NAMES.filter((column) => ALWAYS.includes(column) || unusual.has(column));

export const longForm: CsvForm<LongLayout> = {
  start: { unusual: new Set(), headings: new Set() },
  with({ unusual, headings }, reed) {
    const lines = linesOf(reed);
    const open = COLUMN_NAMES.filter((column) => !ALWAYS.includes(column) && !unusual.has(column));
    const more = open.filter((column) => lines.some((line) => isUnusual(column, line)));
    const own = lines.flatMap(({ reading }) => [...ownCells(reading).keys()]);
    return { unusual: new Set([...unusual, ...more]), headings: new Set([...headings, ...own]) };
  },
  head: (layout, decimal) => csvText([[...columnsOf(layout), ...layout.headings]], decimal),
  rows(reed, layout, decimal) {
    const columns = columnsOf(layout);
    const rows = linesOf(reed).map((line) => {
      const own = ownCells(line.reading);
      return [
        ...columns.map((column) => cellText(valueIn(column, line), decimal)),
        ...[...layout.headings].map((heading) => own.get(heading) ?? ''),
      ];
    });
    return csvText(rows, decimal);
  },
};

/**
 * One reading a row, in mm, with the maker's own columns behind ours: decimal points between commas, or decimal commas
 * between semicolons. Texts that a spreadsheet would run get an apostrophe before them.
 */
export const writeLongCsv = (reeds: readonly ReedDraft[], decimal: DecimalSign): string =>
  csvOf(longForm, reeds, decimal);

/** The cells of the maker's own columns by their headings, both as they are written. */
function ownCells({ extra = {} }: Reading): Map<string, string> {
  return new Map(Object.entries(extra).map(([name, text]) => [shielded(ownHeading(name)), shielded(text)]));
}

/** Rows as RFC 4180 text, a line break after each. */
export function csvText(rows: readonly (readonly string[])[], decimal: DecimalSign): string {
  if (rows.length === 0) return '';
  const delimiter = decimal === 'point' ? ',' : ';';
  return `${Papa.unparse(rows as string[][], { delimiter, newline: '\r\n' })}\r\n`;
}

/** A value as it stands in a cell. */
export function cellText(value: unknown, decimal: DecimalSign): string {
  if (typeof value === 'number') return numberText(value, decimal);
  return typeof value === 'string' ? shielded(value) : '';
}

/** Passes by their index, as reading them back gives them. */
export function inOrder(passes: readonly PassDraft[]): PassDraft[] {
  return [...passes].sort((a, b) => a.index - b.index);
}

/** What a pass says in one of its columns. */
export function factIn(column: Column, pass: PassDraft): unknown {
  return pass[COLUMNS[column].field as keyof PassDraft];
}

function isUnusual(column: Column, line: Line): boolean {
  const value = valueIn(column, line);
  return value !== undefined && value !== '' && value !== USUAL[column];
}

function valueIn(column: Column, { label, pass, reading }: Line): unknown {
  const { of, field } = COLUMNS[column];
  if (of === 'reed') return label;
  return of === 'pass' ? factIn(column, pass) : reading[field as keyof Reading];
}
