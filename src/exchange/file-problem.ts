import type { Problem } from '../../shared/errors.ts';

/** A problem in a file, with its place, what stands there, what was expected and what to do. */
export interface FileProblem extends Problem {
  /** Counted from 1. */
  readonly line?: number;
  /** The column's own heading in the file. */
  readonly column?: string;
  readonly found?: string;
  readonly expected?: string;
  readonly remedy?: string;
}

/** One cell of a file: its text, and the place where it stands. */
export interface Cell {
  readonly text: string;
  readonly line: number;
  /** The heading over it, or what else the maker would know the column by. */
  readonly column: string;
}

const MAX_SHOWN = 40;

/** A text from a file as it may be shown inside a sentence: in quotes, short, without control characters. */
export function quoted(text: string): string {
  const plain = text.replace(/[\p{Cc}\p{Bidi_Control}\u2028\u2029]+/gu, ' ').trim();
  if (plain === '') return 'nothing';
  return plain.length > MAX_SHOWN ? `'${plain.slice(0, MAX_SHOWN)}…'` : `'${plain}'`;
}

/** The problem of one cell. `expected` continues 'expected was', `remedy` is a sentence without its full stop. */
export function cellProblem(cell: Cell, expected: string, remedy: string): FileProblem {
  const { line, column } = cell;
  const found = quoted(cell.text);
  return {
    where: `line ${line}, column ${column}`,
    what: `${found} stands here; expected was ${expected}. ${remedy}.`,
    ...{ line, column, found, expected, remedy },
  };
}

/** The problem of a whole line. */
export function lineProblem(line: number, what: string): FileProblem {
  return { where: `line ${line}`, what, line };
}
