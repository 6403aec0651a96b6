import type { Reading } from '../../shared/reading.ts';

/**
 * Readings of a pass as one line of JSON: `{"n":140,"columns":{...}}`, a column a property. A column is one value that
 * all readings have, a list of values, or a list of distinct values and which of them each reading has; an absent value
 * is null. Equal readings make equal text. An eighth as long as the readings one by one, and still plain text.
 */
export type PackedReadings = string;

type Column = { readonly all: unknown } | { readonly each: readonly unknown[] } | Dictionary;
interface Dictionary {
  readonly of: readonly unknown[];
  readonly at: readonly number[];
}
interface Columns {
  readonly n: number;
  readonly columns: Readonly<Record<string, Column>>;
}

function columnOf(values: readonly unknown[]): Column {
  const distinct = new Map<unknown, number>();
  const of: unknown[] = [];
  const at = values.map((value) => {
    const key = typeof value === 'object' && value !== null ? JSON.stringify(value) : value;
    const known = distinct.get(key) ?? of.push(value) - 1;
    distinct.set(key, known);
    return known;
  });
  if (of.length === 1) return { all: of[0] };
  return 2 * of.length > values.length ? { each: values } : { of, at };
}

export function packReadings(readings: readonly Reading[]): PackedReadings {
  const keys = [...new Set(readings.flatMap((reading) => Object.keys(reading)))].sort();
  const columns: Record<string, Column> = {};
  for (const key of keys)
    columns[key] = columnOf(readings.map((reading) => reading[key as keyof Reading] ?? null));
  return JSON.stringify({ n: readings.length, columns } satisfies Columns);
}

function valueAt(column: Column, i: number): unknown {
  if ('all' in column) return column.all;
  return 'each' in column ? column.each[i] : column.of[column.at[i] ?? -1];
}

/**
 * The readings again, not checked: that is for the schema to do.
 *
 * @param most No more readings than so many, whatever the text says.
 * @throws SyntaxError or TypeError when the text is no packed readings.
 */
export function unpackReadings(packed: PackedReadings, most: number): Reading[] {
  const { n, columns } = JSON.parse(packed) as Columns;
  if (!Number.isInteger(n) || n < 0 || n > most)
    throw new TypeError(`Between 0 and ${most} readings, not ${n}.`);
  const entries = Object.entries(columns);
  return Array.from({ length: n }, (_, i) => {
    const reading: Record<string, unknown> = {};
    for (const [key, column] of entries) {
      const value = valueAt(column, i);
      if (value !== null && value !== undefined) reading[key] = value;
    }
    return reading as unknown as Reading;
  });
}
