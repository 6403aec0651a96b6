import type { MapMark } from './map-data.ts';

/** How near a click must be to a station to open its reading, CSS pixels or a drawing's own units. */
export const REACH = 24;

/** Where in a picture's rows a station stands. */
interface Cell {
  readonly mark: MapMark;
  /** Place of the mark in the list that was given. */
  readonly index: number;
}

/** Marks in rows from the tip, each row from left to right. */
export function rowsOf(marks: readonly MapMark[]): Cell[][] {
  const rows = new Map<number, Cell[]>();
  marks.forEach((mark, index) => {
    const row = rows.get(mark.fromTipMm);
    if (row) row.push({ mark, index });
    else rows.set(mark.fromTipMm, [{ mark, index }]);
  });
  return [...rows.entries()]
    .sort(([one], [other]) => one - other)
    .map(([, row]) => row.sort((one, other) => one.mark.across - other.mark.across));
}

/** The mark nearest to a place across, in one row. */
function nearest(row: readonly Cell[], across: number): Cell {
  const distance = ({ mark }: Cell) => Math.abs(mark.across - across);
  return row.reduce((best, cell) => (distance(cell) < distance(best) ? cell : best));
}

/** Number of the mark nearest to a place, counted in millimetres along and in fractions of the half-width across. */
export function nearestMark(marks: readonly MapMark[], fromTipMm: number, across: number): number {
  const distance = (mark: MapMark) => Math.abs(mark.fromTipMm - fromTipMm) + Math.abs(mark.across - across);
  return marks.reduce((best, mark, index) => (distance(mark) < distance(marks[best]!) ? index : best), 0);
}

/** The mark that a key leads to from another, or undefined where the key does not move. */
export function step(marks: readonly MapMark[], from: number, key: string): number | undefined {
  const rows = rowsOf(marks);
  const r = rows.findIndex((row) => row.some(({ index }) => index === from));
  const row = rows[r];
  if (!row) return undefined;
  const c = row.findIndex(({ index }) => index === from);
  const { across } = row[c]!.mark;
  const inRow = (k: number) => rows[k] && nearest(rows[k], across);
  const targets: Record<string, Cell | undefined> = {
    ArrowLeft: row[c - 1],
    ArrowRight: row[c + 1],
    ArrowUp: inRow(r - 1),
    ArrowDown: inRow(r + 1),
    Home: row[0],
    End: row.at(-1),
    PageUp: inRow(0),
    PageDown: inRow(rows.length - 1),
  };
  return targets[key]?.index;
}
