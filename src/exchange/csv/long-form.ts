import { lineProblem, quoted, type Cell, type FileProblem } from '../file-problem.ts';
import { COLUMNS, knownHeading, NEEDED, type Column, type KnownHeading } from './columns.ts';
import type { Form, FormRow } from './form.ts';
import { fromOwnHeading, unshielded } from './own-text.ts';
import type { TableRow } from './table.ts';

/** The maker's own headings for our columns. */
export type ColumnChoice = Readonly<Partial<Record<Column, string>>>;

interface Heading {
  readonly text: string;
  readonly known?: KnownHeading;
  /** Name under which the column's texts are kept; absent where the heading is blank. */
  readonly own?: string;
}

const HEADING_ROWS = 10;
const ENOUGH_KNOWN = 3;
const MAX_HEADING = 80;
const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype']);

/** Place of the row that heads a long form, or -1. */
export function headingRow(rows: readonly TableRow[], choice: ColumnChoice): number {
  const chosen = Object.values(choice);
  return rows.slice(0, HEADING_ROWS).findIndex(({ cells }) => {
    const columns = new Set(
      cells.map((cell) => knownHeading(cell)?.column).filter((column) => column !== undefined),
    );
    return (
      columns.size >= ENOUGH_KNOWN ||
      (chosen.length > 0 && chosen.every((heading) => cells.some((cell) => cell.trim() === heading)))
    );
  });
}

/** Takes a table with one reading a row apart, headed by row `at`; without a `needed` column it has no rows. */
export function longForm(
  rows: readonly TableRow[],
  at: number,
  choice: ColumnChoice,
  needed: readonly Column[] = NEEDED,
): Form {
  const head = rows[at]!;
  const headings = readHeadings(head, choice);
  const columns = Object.fromEntries(
    headings.flatMap(({ known, text }) => (known ? [[known.column, text]] : [])),
  );
  const unit = headings.find(({ known }) => known?.unit)?.known?.unit;
  const problems = headingProblems(head.line, headings);
  const lacking = needed.filter((column) => !(column in columns));
  const formRows =
    problems.length + lacking.length > 0
      ? []
      : rows.slice(at + 1).map((row) => formRow(row, headings, problems));
  return {
    form: 'long',
    rows: formRows,
    blanks: 0,
    ...(unit && { unit }),
    hasRepeats: 'repeat' in columns,
    headings: headings.map(({ text }) => text),
    columns,
    lacking,
    unread: rows.slice(0, at).map(({ line, cells }) => ({ line, text: cells.join(' ').trim() })),
    problems,
  };
}

function readHeadings({ cells }: TableRow, choice: ColumnChoice): Heading[] {
  const chosen = new Map(Object.entries(choice).map(([column, heading]) => [heading, column as Column]));
  const texts = cells.slice(0, cells.findLastIndex((cell) => cell.trim() !== '') + 1);
  return texts.map((cell) => {
    const text = cell.trim();
    const own = fromOwnHeading(unshielded(cell));
    const column = chosen.get(text);
    const meant = knownHeading(text);
    if (column) return { text, known: meant?.column === column ? meant : { column } };
    if (meant && !(meant.column in choice)) return { text, known: meant };
    return own === undefined ? { text } : { text, own };
  });
}

function headingProblems(line: number, headings: readonly Heading[]): FileProblem[] {
  const seen = new Set<string>();
  const problems: FileProblem[] = [];
  for (const { text, known, own } of headings) {
    const key = known?.column ?? (own === undefined ? undefined : `own:${own}`);
    if (key !== undefined && seen.has(key))
      problems.push(
        lineProblem(
          line,
          `The heading ${quoted(text)} stands for a column that is already there. Give each column its own heading.`,
        ),
      );
    if (key !== undefined) seen.add(key);
    if (own !== undefined && FORBIDDEN.has(own))
      problems.push(lineProblem(line, `The heading ${quoted(text)} cannot be kept. Give it another name.`));
    if (own !== undefined && own.length > MAX_HEADING)
      problems.push(
        lineProblem(line, `The heading ${quoted(text)} has more than ${MAX_HEADING} characters. Shorten it.`),
      );
  }
  return problems;
}

function formRow({ line, cells }: TableRow, headings: readonly Heading[], problems: FileProblem[]): FormRow {
  const known: Partial<Record<Column, Cell>> = {};
  const extra: [string, string][] = [];
  for (const [i, text] of cells.entries()) {
    const heading = headings[i];
    if (heading?.known) {
      const { column } = heading.known;
      known[column] = {
        text: COLUMNS[column].holds === 'text' ? unshielded(text) : text.trim(),
        line,
        column: heading.text,
      };
    } else if (text === '') continue;
    else if (heading?.own !== undefined) extra.push([heading.own, unshielded(text)]);
    else if (text.trim() !== '')
      problems.push(
        lineProblem(
          line,
          `${quoted(text)} in cell ${i + 1} has no heading over it. Give the column a heading, or clear the cell.`,
        ),
      );
  }
  return { line, cells: known, extra: Object.fromEntries(extra) };
}
