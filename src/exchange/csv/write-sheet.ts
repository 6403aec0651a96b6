import type { Reading } from '../../../shared/reading.ts';
import { COLUMN_NAMES, COLUMNS } from './columns.ts';
import type { PassDraft, ReedDraft } from './drafts.ts';
import { csvOf, type CsvForm } from './in-parts.ts';
import type { DecimalSign } from './number-text.ts';
import { cellText, csvText, factIn, inOrder } from './write-csv.ts';

const PASS_COLUMNS = COLUMN_NAMES.filter((column) => COLUMNS[column].of === 'pass');

const sheetsOf = ({ label, passes }: ReedDraft, decimal: DecimalSign): string[][] =>
  inOrder(passes).flatMap((pass) => sheetRows(label, pass, decimal));

/** The layout is the number of columns: of all rows the same. */
export const sheetForm: CsvForm<number> = {
  start: 0,
  with: (width, reed) => sheetsOf(reed, 'point').reduce((most, { length }) => Math.max(most, length), width),
  head: () => '',
  rows: (reed, width, decimal) =>
    csvText(
      sheetsOf(reed, decimal).map((row) => [...row, ...Array<string>(width - row.length).fill('')]),
      decimal,
    ),
};

/**
 * A sheet for each pass, as makers write it: rows are distances from the tip, columns positions across, one block a
 * blade, a further block for each repeat and for controls. In mm; a reading that is not sound carries its flag behind
 * it. Method, seconds and the maker's own columns have no place here: the long form keeps them.
 */
export const writeSheetCsv = (reeds: readonly ReedDraft[], decimal: DecimalSign): string =>
  csvOf(sheetForm, reeds, decimal);

function sheetRows(label: string, pass: PassDraft, decimal: DecimalSign): string[][] {
  const blocks = new Map<string, Reading[]>();
  for (const reading of pass.readings) {
    if (reading.thicknessMm === undefined && reading.flag === 'ok') continue;
    const title = blockTitle(reading);
    blocks.set(title, [...(blocks.get(title) ?? []), reading]);
  }
  if (blocks.size === 0) return [];
  const facts = PASS_COLUMNS.filter((column) => factIn(column, pass) !== undefined);
  return [
    ['reed', cellText(label, decimal)],
    ...facts.map((column) => [column, cellText(factIn(column, pass), decimal)]),
    ['unit', 'mm'],
    ...[...blocks]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .flatMap(([title, readings]) => blockRows(title, readings, decimal)),
    [''],
  ];
}

function blockTitle({ blade, role, repeat }: Reading): string {
  return `Blade ${blade}${role === 'control' ? ', control' : ''}${repeat > 0 ? `, repeat ${repeat}` : ''}`;
}

function blockRows(title: string, readings: readonly Reading[], decimal: DecimalSign): string[][] {
  const text = (value: number) => cellText(value, decimal);
  const across = rising(readings.map((reading) => reading.across));
  const distances = rising(readings.map((reading) => reading.fromTipMm));
  const cells = new Map(
    readings.map((reading) => [`${reading.fromTipMm} ${reading.across}`, readingText(reading, decimal)]),
  );
  return [
    [''],
    [title],
    ['mm from tip', ...across.map(text)],
    ...distances.map((distance) => [
      text(distance),
      ...across.map((place) => cells.get(`${distance} ${place}`) ?? ''),
    ]),
  ];
}

function readingText({ thicknessMm, flag }: Reading, decimal: DecimalSign): string {
  return [cellText(thicknessMm, decimal), flag === 'ok' ? '' : flag].filter((part) => part !== '').join(' ');
}

function rising(values: readonly number[]): number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}
