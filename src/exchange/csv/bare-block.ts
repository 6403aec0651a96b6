import { ascending, range } from 'd3-array';
import { BLADES, type Blade } from '../../../shared/blade.ts';
import type { BlockAnswer } from '../../../shared/settings.ts';
import type { Cell } from '../file-problem.ts';
import type { Form, FormRow } from './form.ts';
import { decideDecimal, looksNumeric, numberText, parseNumber, type DecimalSign } from './number-text.ts';
import type { Delimiter, TableRow } from './table.ts';

/** Rows of a full map, mm from the tip, which are offered for as many lines. Common practice, no source. */
const USUAL_ROWS = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const USUAL_EDGE = 0.8;
/** As many places across as anybody reads on one blade; with more, two blades lie side by side. */
const MOST_ACROSS = 5;
/** Fewer lines are no two blades under each other. */
const FEWEST_UNDER = 12;

type Texts = readonly (readonly string[])[];

/** Whether a table holds numbers alone, two rows or columns of them at least. */
export function isBareBlock(rows: readonly TableRow[]): boolean {
  const cells = rows.flatMap((row) => row.cells).filter((cell) => cell.trim() !== '');
  return rows.length > 1 && cells.length > 3 && cells.every(looksNumeric);
}

const widthOf = (texts: Texts) =>
  Math.max(...texts.map((row) => row.findLastIndex((text) => text.trim() !== '') + 1));

/** The cells line by line as they lie on a blade, from the tip down; columns become lines in a block that lies across. */
function linesOf(rows: readonly TableRow[], turned: boolean): { texts: string[][]; lines: number[] } {
  const texts = rows.map(({ cells }) => [...cells]);
  const width = widthOf(texts);
  if (!turned)
    return {
      texts: texts.map((row) => range(width).map((j) => row[j] ?? '')),
      lines: rows.map(({ line }) => line),
    };
  return {
    texts: range(width).map((j) => texts.map((row) => row[j] ?? '')),
    lines: range(width).map((j) => j + 1),
  };
}

const valueOf = (text: string) => parseNumber(text.replace(',', '.'), 'point')?.value;
const rises = (values: readonly (number | undefined)[]) =>
  values.every(
    (value, i) =>
      value !== undefined && value >= -1 && value <= 60 && (i === 0 || value > (values[i - 1] ?? Infinity)),
  );

/** Places across from edge to edge, left first, as shares of the half-width. */
export function usualAcross(count: number): number[] {
  if (count === 1) return [0];
  return range(count).map((j) => Number((-USUAL_EDGE + (2 * USUAL_EDGE * j) / (count - 1)).toFixed(3)) + 0);
}

/** Distances for as many lines: those of a full map as far as they go, whole millimetres otherwise. */
export function usualRows(count: number): number[] {
  return count <= USUAL_ROWS.length ? USUAL_ROWS.slice(0, count) : range(1, count + 1);
}

/** Distances in the first column, once or once a blade: they rise, and no thickness in hundredths begins so. */
function firstColumn(texts: Texts): readonly number[] | undefined {
  const values = texts.map(([first = '']) => valueOf(first));
  const half = values.length / 2;
  const [first] = values;
  if (first === undefined || first > 2 || (texts[0]?.length ?? 0) < 2) return undefined;
  if (rises(values)) return values as number[];
  const [upper, lower] = [values.slice(0, half), values.slice(half)];
  return Number.isInteger(half) && rises(upper) && upper.every((value, i) => value === lower[i])
    ? (upper as number[])
    : undefined;
}

/**
 * How a bare block may lie on the blades: lines across or along, with or without their distances, one blade or two. It
 * is offered to the maker and never taken by itself.
 */
export function offeredBlock(rows: readonly TableRow[]): BlockAnswer {
  const plain = linesOf(rows, false).texts;
  const width = widthOf(plain);
  const turned = width > 2 * MOST_ACROSS + 1 && rows.length <= 2 * MOST_ACROSS + 1;
  return offeredLines(rows, turned);
}

/** What is offered for a block that is read along or across. */
export function offeredLines(rows: readonly TableRow[], turned: boolean): BlockAnswer {
  const { texts } = linesOf(rows, turned);
  const distances = firstColumn(texts);
  const columns = widthOf(texts) - (distances ? 1 : 0);
  const isBeside = columns > MOST_ACROSS && columns % 2 === 0;
  const isUnder =
    !isBeside &&
    texts.length % 2 === 0 &&
    (distances ? distances.length < texts.length : texts.length >= 2 * FEWEST_UNDER);
  const count = isUnder ? texts.length / 2 : texts.length;
  return {
    turned,
    distancesFirst: distances !== undefined,
    blades: isBeside ? 'beside' : isUnder ? 'under' : 'A',
    fromTipMm: [...(distances ?? usualRows(count))],
    across: usualAcross(isBeside ? columns / 2 : columns),
  };
}

/** A cell of a block and the place that it belongs to. */
export interface BlockCell {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  readonly text: string;
  readonly line: number;
}

/** Every cell of a block at its place, line by line; cells beyond the answer's rows and columns are left out. */
export function blockCells(rows: readonly TableRow[], answer: BlockAnswer): BlockCell[] {
  const { texts, lines } = linesOf(rows, answer.turned);
  const { fromTipMm, across, blades } = answer;
  const skip = answer.distancesFirst ? 1 : 0;
  return texts.flatMap((row, i) =>
    row.slice(skip).flatMap((text, j): BlockCell[] => {
      const n = Math.floor(
        blades === 'under' ? i / fromTipMm.length : blades === 'beside' ? j / across.length : 0,
      );
      const blade = blades === 'A' || blades === 'B' ? blades : BLADES[n];
      const mm = fromTipMm[blades === 'under' ? i % fromTipMm.length : i];
      const share = across[blades === 'beside' ? j % across.length : j];
      if (blade === undefined || mm === undefined || share === undefined) return [];
      return [{ blade, fromTipMm: mm, across: share, text: text.trim(), line: lines[i] ?? i + 1 }];
    }),
  );
}

/** Takes a bare block apart as the maker said that it lies. */
export function bareForm(
  rows: readonly TableRow[],
  answer: BlockAnswer,
  delimiter: Delimiter,
  said: DecimalSign | undefined,
): Form {
  const cells = blockCells(rows, answer);
  const decision = decideDecimal(
    cells.map(({ text }) => text),
    delimiter,
  );
  const decimal = said ?? ('decimal' in decision ? decision.decimal : 'point');
  const read = cells.filter(({ text }) => text !== '');
  return {
    form: 'bare',
    size: [rows.length, Math.max(...rows.map((row) => row.cells.length))],
    rows: read.map((one) => rowOf(one, decimal)).sort((a, b) => ascending(a.line, b.line)),
    blanks: cells.length - read.length,
    hasRepeats: false,
    headings: [],
    columns: {},
    lacking: [],
    unread: [],
    problems: [],
  };
}

function rowOf({ blade, fromTipMm, across, text, line }: BlockCell, decimal: DecimalSign): FormRow {
  const cell = (content: string, column: string): Cell => ({ text: content, line, column });
  return {
    line,
    cells: {
      blade: cell(blade, 'blade'),
      from_tip_mm: cell(numberText(fromTipMm, decimal), 'mm from the tip'),
      across: cell(numberText(across, decimal), 'across'),
      thickness_mm: cell(text, `${numberText(fromTipMm, decimal)} mm`),
    },
    extra: {},
  };
}

/** What is wrong with an answer, for the maker; undefined where every line and column has a place of its own. */
export function blockProblem({ fromTipMm, across }: BlockAnswer): string | undefined {
  if (fromTipMm.some((mm) => !(mm >= -1 && mm <= 60)))
    return 'Give each line its distance from the tip in mm.';
  if (!rises(fromTipMm) && !rises([...fromTipMm].reverse()))
    return 'Two lines have the same distance, or the distances rise and fall. Put them in order.';
  if (new Set(across).size < across.length)
    return 'Two columns stand at the same place across. Give each its own.';
  return undefined;
}
