import type { ThicknessUnit } from '../../../shared/units.ts';
import { lineProblem, quoted, type Cell, type FileProblem } from '../file-problem.ts';
import { COLUMNS, knownHeading, namedUnit, type Column } from './columns.ts';
import type { Form, FormRow } from './form.ts';
import { looksNumeric, parseNumber } from './number-text.ts';
import { unshielded } from './own-text.ts';
import { MAX_ROWS, refuse, type TableRow } from './table.ts';

/** Positions across as they stand over a block of readings. */
interface Block {
  readonly across: readonly (Cell | undefined)[];
}

/** What has been read of a sheet so far. */
interface Sheet {
  /** Facts of the reed and the pass that later rows belong to. */
  facts: Partial<Record<Column, Cell>>;
  /** Blade, role and repeat of the block. */
  place: Partial<Record<Column, Cell>>;
  block: Block | undefined;
  unit: ThicknessUnit | undefined;
  hasRepeats: boolean;
  blanks: number;
  readonly rows: FormRow[];
  readonly unread: { line: number; text: string }[];
  readonly problems: FileProblem[];
}

const FLAGGED = /^(.*?)\s*\b(weak|doubtful|no[- ]cane|wire)$/i;

/** Whether some row of a table heads a block of readings. */
export function hasBlock(rows: readonly TableRow[]): boolean {
  return rows.some((_, i) => isPositions(rows, i));
}

/**
 * Takes a maker's sheet apart: rows are distances from the tip, columns positions across, a line that names the blade
 * over each block. A first line with the reed's label, and lines that begin with a heading of the long form or `unit`,
 * say the rest; a line `reed` or `pass` begins another sheet. Blank cells were not read.
 */
export function wideForm(rows: readonly TableRow[]): Form {
  const sheet: Sheet = {
    ...{ facts: {}, place: {}, block: undefined, unit: undefined, hasRepeats: false, blanks: 0 },
    ...{ rows: [], unread: [], problems: [] },
  };
  for (const [i, row] of rows.entries()) takeRow(sheet, rows, i, row);
  const { rows: formRows, unread, problems, blanks, unit, hasRepeats } = sheet;
  const base = { form: 'wide', rows: formRows, blanks, hasRepeats, unread, problems } as const;
  return { ...base, ...(unit && { unit }), headings: [], columns: {}, lacking: [] };
}

function takeRow(sheet: Sheet, rows: readonly TableRow[], i: number, row: TableRow): void {
  const first = row.cells[0]!.trim();
  if (isPositions(rows, i)) startBlock(sheet, row);
  else if (takeBlade(sheet, row) || takeFact(sheet, row)) return;
  else if (sheet.block && (looksNumeric(first) || row.cells.slice(1).some(looksNumeric)))
    takeReadings(sheet, sheet.block, row);
  else if (i === 0) takeTitle(sheet, row);
  else if (row.cells.some(looksNumeric)) {
    sheet.problems.push(
      lineProblem(
        row.line,
        `Numbers stand here before any line of positions across. Put a line with the positions, from -1 to 1, over them.`,
      ),
    );
  } else sheet.unread.push({ line: row.line, text: row.cells.join(' ').trim() });
}

/** A row of positions: text or nothing, then fractions from -1 to 1 in order, then a row of readings. */
function isPositions(rows: readonly TableRow[], i: number): boolean {
  const { cells } = rows[i]!;
  const next = rows[i + 1];
  const first = cells[0]!.trim();
  const texts = cells
    .slice(1)
    .map((cell) => cell.trim())
    .filter((cell) => cell !== '');
  if (looksNumeric(first) || texts.length === 0 || !next || !looksNumeric(next.cells[0]!)) return false;
  if (knownHeading(first)?.column === 'from_tip_mm') return true;
  const places = texts.map((text) => parseNumber(text.replace(',', '.'), 'point')?.value ?? NaN);
  const ordered = (sign: number) =>
    places.every((place, j) => j === 0 || sign * (place - places[j - 1]!) > 0);
  return texts.length > 1 && places.every((place) => Math.abs(place) <= 1) && (ordered(1) || ordered(-1));
}

function startBlock(sheet: Sheet, { line, cells }: TableRow): void {
  sheet.block = { across: cells.slice(1).map((text) => positionCell(line, text)) };
  if (sheet.place.blade) return;
  sheet.problems.push(
    lineProblem(line, 'No line names the blade of these readings. Write Blade A or Blade B over them.'),
  );
}

function positionCell(line: number, text: string): Cell | undefined {
  return text.trim() === '' ? undefined : { text: text.trim(), line, column: text.trim() };
}

/** Takes a line such as `Blade A, bark side, tip up` or `Blade B, control, repeat 1`. */
function takeBlade(sheet: Sheet, { line, cells }: TableRow): boolean {
  const first = cells[0]!.trim();
  const blade = /^(?:blade\s+)?([ab])\b/i.exec(first)?.[1];
  if (blade === undefined || (first.length > 1 && !/^blade/i.test(first))) return false;
  const cell = (text: string): Cell => ({ text, line, column: 'blade' });
  const repeat = /\brepeat\s+(\d+)/i.exec(first)?.[1];
  sheet.place = {
    blade: cell(blade),
    ...(/\bcontrol\b/i.test(first) && { role: cell('control') }),
    ...(repeat !== undefined && { repeat: cell(repeat) }),
  };
  sheet.hasRepeats ||= repeat !== undefined;
  return true;
}

/** Takes a line with the name of a fact and its value, such as `OAL;70,2`. */
function takeFact(sheet: Sheet, { line, cells }: TableRow): boolean {
  const first = cells[0]!.trim();
  const text = cells[1]?.trim() ?? '';
  if (/^unit$/i.test(first)) {
    sheet.unit = namedUnit(text);
    if (!sheet.unit)
      sheet.problems.push(
        lineProblem(line, `${quoted(text)} is no unit of thickness. Write mm, hundredths or thou.`),
      );
    return true;
  }
  const column = knownHeading(first)?.column;
  if (column === undefined || COLUMNS[column].of === 'reading') return false;
  if ((column === 'reed' || column === 'pass') && sheet.block) startSheet(sheet, column);
  if (text !== '')
    sheet.facts[column] = {
      text: COLUMNS[column].holds === 'text' ? unshielded(text) : text,
      line,
      column: first,
    };
  return true;
}

/** A new pass keeps the label of the reed. */
function startSheet(sheet: Sheet, column: 'reed' | 'pass'): void {
  const { reed } = sheet.facts;
  sheet.facts = column === 'pass' && reed ? { reed } : {};
  sheet.place = {};
  sheet.block = undefined;
}

/** The first line: the reed's label, then in any cell the state and the number of the pass. */
function takeTitle(sheet: Sheet, { line, cells }: TableRow): void {
  const [first, ...rest] = cells.map((cell) => cell.trim());
  sheet.facts.reed = { text: unshielded(first!), line, column: 'title' };
  const said = rest.join(' ');
  const state = /\b(wet|damp|dry)\b/i.exec(said)?.[1];
  const pass = /\bpass\s+(\d+)\b/i.exec(said)?.[1];
  if (state) sheet.facts.state = { text: state, line, column: 'title' };
  if (pass) sheet.facts.pass = { text: pass, line, column: 'title' };
  sheet.unit = rest.map(namedUnit).find((unit) => unit !== undefined);
  if (said !== '' && !state && !pass && !sheet.unit) sheet.unread.push({ line, text: said });
}

function takeReadings(sheet: Sheet, { across }: Block, { line, cells }: TableRow): void {
  if (sheet.rows.length > MAX_ROWS) refuse(line, `The file has more than ${MAX_ROWS} readings. Split it.`);
  const fromTip: Cell = { text: cells[0]!.trim(), line, column: 'mm from tip' };
  for (let j = 0; j < Math.max(across.length, cells.length - 1); j++) {
    const position = across[j];
    const text = cells[j + 1]?.trim() ?? '';
    if (position && text !== '') sheet.rows.push(readingRow(sheet, fromTip, position, text));
    else if (position) sheet.blanks += 1;
    else if (text !== '')
      sheet.problems.push(
        lineProblem(
          line,
          `${quoted(text)} in cell ${j + 2} has no position over it. Give the column a position, or clear the cell.`,
        ),
      );
  }
}

function readingRow({ facts, place }: Sheet, fromTip: Cell, across: Cell, text: string): FormRow {
  const { line } = fromTip;
  const [, thickness, flag] = FLAGGED.exec(text) ?? [];
  const cell = (content: string): Cell => ({ text: content, line, column: across.text });
  const reading: Partial<Record<Column, Cell>> = {
    from_tip_mm: fromTip,
    across,
    thickness_mm: cell(thickness ?? text),
  };
  if (flag !== undefined) reading.flag = cell(flag);
  return { line, cells: { ...facts, ...place, ...reading }, extra: {} };
}
