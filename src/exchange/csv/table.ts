import Papa from 'papaparse';
import { FormatError } from '../../../shared/errors.ts';
import { lineProblem } from '../file-problem.ts';

export type Delimiter = '\t' | ';' | ',';

/** One line of a table; a quoted cell may hold line breaks, so that a row can begin many lines after the one before. */
export interface TableRow {
  /** Counted from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** What keeps a long task from holding the page: called between slices, it may wait, report, or throw to stop. */
export type Pause = (fraction: number) => Promise<void>;

/** Rows of a file, and readings of a sheet: one by one or side by side, a file holds no more. */
export const MAX_ROWS = 50_000;
const MAX_CELLS = 120;
const MAX_CELL_LENGTH = 410;
const SLICE = 2000;
const SAMPLE_ROWS = 100;
const SAMPLE_LENGTH = 50_000;

/**
 * Splits text by the rules of RFC 4180, with the delimiter decided here and line feeds for line breaks. Rows without
 * any text are left out.
 *
 * @throws FormatError for a quotation mark that is not closed, and for more rows, cells or text than a sheet can have.
 */
export async function splitTable(text: string, delimiter: Delimiter, pause: Pause): Promise<TableRow[]> {
  const rows: TableRow[] = [];
  for (let at = 0, line = 1; at < text.length;) {
    const { data, errors, meta } = splitRows(text.slice(at), delimiter, SLICE);
    const broken = errors[0]?.row;
    for (const [i, cells] of data.entries()) {
      if (i === broken)
        refuse(
          line,
          'A quotation mark is opened or closed in the wrong place. Put it right, or double it inside a quoted cell.',
        );
      if (cells.some((cell) => cell.trim() !== '')) rows.push(checked(line, cells));
      if (rows.length > MAX_ROWS) refuse(line, `The file has more than ${MAX_ROWS} rows. Split it.`);
      line += 1 + cells.reduce((breaks, cell) => breaks + cell.split('\n').length - 1, 0);
    }
    at += meta.cursor;
    if (at < text.length) await pause(at / text.length);
  }
  if (rows.length === 0) refuse(1, 'Every cell is blank. Choose a file with readings.');
  return rows;
}

/**
 * The delimiter by which a row `isKnown`, or else by which most lines have the same number of cells: tab before
 * semicolon before comma.
 */
export function decideDelimiter(text: string, isKnown: (rows: readonly TableRow[]) => boolean): Delimiter {
  const sample = text.slice(0, SAMPLE_LENGTH);
  let best: { delimiter: Delimiter; share: number } = { delimiter: ',', share: 0 };
  for (const delimiter of ['\t', ';', ','] as const) {
    const { data } = splitRows(sample, delimiter, SAMPLE_ROWS);
    const known = isKnown(data.map((cells, i) => ({ line: i + 1, cells })));
    const share = consistency(data) + (known ? 1 : 0);
    if (share > best.share) best = { delimiter, share };
  }
  return best.delimiter;
}

/** Share of the lines that have the commonest number of cells, where that is two or more. */
function consistency(rows: readonly (readonly string[])[]): number {
  const counts = new Map<number, number>();
  const filled = rows.filter((cells) => cells.length > 1 || cells[0] !== '');
  for (const { length } of filled) if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
  return Math.max(0, ...counts.values()) / Math.max(1, filled.length);
}

interface SplitRows {
  readonly data: readonly string[][];
  readonly errors: readonly { readonly row?: number | undefined }[];
  /** How much of the text was split. */
  readonly meta: { readonly cursor: number };
}

/** Cells of the first `preview` rows. */
export function splitRows(text: string, delimiter: Delimiter, preview: number): SplitRows {
  return Papa.parse<string[]>(text, { delimiter, newline: '\n', preview, fastMode: false });
}

function checked(line: number, cells: readonly string[]): TableRow {
  if (cells.length > MAX_CELLS)
    refuse(line, `The row has more than ${MAX_CELLS} cells. Bring in fewer columns.`);
  if (cells.some(({ length }) => length > MAX_CELL_LENGTH)) {
    refuse(
      line,
      `A cell has more than ${MAX_CELL_LENGTH} characters. Shorten it, or close its quotation mark.`,
    );
  }
  return { line, cells };
}

export function refuse(line: number, what: string): never {
  throw new FormatError([lineProblem(line, what)]);
}
