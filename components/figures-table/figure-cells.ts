import type { FigureCell, FigureRow } from './laid-out.ts';

/** A number as spreadsheets take it: without the plus before it, and without the brackets that would make it negative there. */
export const withoutSigns = (text: string) => text.replace(/^\((.*)\)$/, '$1').replace(/^\+/, '');

const pair = (cell: FigureCell | undefined): readonly [value: string, doubt: string] => {
  if (cell === undefined || (typeof cell === 'object' && 'none' in cell)) return ['', ''];
  if (typeof cell === 'string') return [cell, ''];
  return [withoutSigns(cell.value), cell.doubt.replace('±', '').trim()];
};

/**
 * A table of figures as plain cells, its headings first: a figure's doubt has a column of its own, headed ±, where any row has
 * one. What is missing is blank.
 */
export function figureCells(heads: readonly string[], rows: readonly FigureRow[]): string[][] {
  const columns = heads.slice(1).map((head, column) => {
    const pairs = rows.map(({ cells }) => pair(cells[column]));
    const hasDoubt = pairs.some(([, doubt]) => doubt !== '');
    return {
      head: hasDoubt ? [head, '±'] : [head],
      cells: pairs.map((cell) => cell.slice(0, hasDoubt ? 2 : 1)),
    };
  });
  return [
    [heads[0] ?? '', ...columns.flatMap(({ head }) => head)],
    ...rows.map(({ title }, row) => [title, ...columns.flatMap(({ cells }) => cells[row] ?? [])]),
  ];
}
