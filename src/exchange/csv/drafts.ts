import type { Reading } from '../../../shared/reading.ts';
import { MAX_READINGS } from '../../../shared/pass.ts';
import { cellProblem, lineProblem, type FileProblem } from '../file-problem.ts';
import { COLUMN_NAMES, COLUMNS, type Column, type PassFacts } from './columns.ts';
import type { ReadRow } from './read-rows.ts';

/** A pass as files tell it: a document without stamp and identifiers. */
export interface PassDraft extends PassFacts {
  readonly readings: readonly Reading[];
}

export interface ReedDraft {
  readonly label: string;
  /** By their index. */
  readonly passes: readonly PassDraft[];
}

/** A checked reading and the file that it stands in. */
export interface FiledRow extends ReadRow {
  readonly file: FiledFrom;
}
export interface FiledFrom {
  readonly name: string;
  readonly hasRepeats: boolean;
}

interface Gathered {
  readonly facts: Map<keyof PassFacts, { value: unknown; row: FiledRow }>;
  readonly readings: Reading[];
  readonly stations: Map<string, FiledRow>;
}

/** Takes a problem of a row, in the file that it stands in. */
type Report = (file: FiledFrom, problem: FileProblem) => void;

const PASS_COLUMNS = COLUMN_NAMES.filter((column) => COLUMNS[column].of === 'pass' && column !== 'pass');

/**
 * Gathers readings into reeds by their labels and passes by their index, in the order in which they are first met.
 * What the files say twice must agree, and each station may be read once, or once a repeat.
 */
export function gatherDrafts(rows: Iterable<FiledRow>, report: Report): ReedDraft[] {
  const reeds = new Map<string, Map<number, Gathered>>();
  for (const row of rows) {
    const passes = entry(reeds, row.label, () => new Map<number, Gathered>());
    const pass = entry(passes, row.facts.index, () => ({
      facts: new Map(),
      readings: [],
      stations: new Map(),
    }));
    takeFacts(pass, row, report);
    takeReading(pass, row, report);
  }
  return Array.from(reeds, ([label, passes]) => ({
    label,
    passes: Array.from(passes, ([index, pass]) => passDraft(index, pass)).sort((a, b) => a.index - b.index),
  }));
}

function passDraft(index: number, { facts, readings }: Gathered): PassDraft {
  const told = Object.fromEntries(Array.from(facts, ([field, { value }]) => [field, value]));
  return { ...(told as Partial<PassFacts>), index, readings };
}

function takeFacts(pass: Gathered, row: FiledRow, report: Report): void {
  for (const column of PASS_COLUMNS) {
    const field = COLUMNS[column].field as keyof PassFacts;
    const value = row.facts[field];
    if (value === undefined) continue;
    const told = entry(pass.facts, field, () => ({ value, row }));
    if (told.value !== value) report(row.file, contradiction(column, row, told.row));
  }
}

function contradiction(column: Column, row: FiledRow, earlier: FiledRow): FileProblem {
  const expected = `${earlier.source.cells[column]?.text}, as ${whereIn(earlier, row)} says for the same pass`;
  return cellProblem(row.source.cells[column]!, expected, 'Make them agree, or number the passes apart');
}

function takeReading(pass: Gathered, row: FiledRow, report: Report): void {
  const { reading, source, file } = row;
  const { role, blade, fromTipMm, across, repeat } = reading;
  const key = [role, blade, fromTipMm, across, repeat].join(' ');
  const earlier = entry(pass.stations, key, () => row);
  if (earlier !== row) {
    const station = `Blade ${blade} at ${source.cells.from_tip_mm?.text} mm, across ${source.cells.across?.text},`;
    const cure = file.hasRepeats
      ? 'Give each reading its own repeat number'
      : 'Take one out, or tell them apart in a column named repeat';
    report(
      file,
      lineProblem(
        source.line,
        `${station} is read a second time; the first is ${whereIn(earlier, row)}. ${cure}.`,
      ),
    );
  } else if (pass.readings.length === MAX_READINGS) {
    report(file, lineProblem(source.line, `The pass has more than ${MAX_READINGS} readings. Split it.`));
  }
  pass.readings.push(reading);
}

function whereIn({ source, file }: FiledRow, from: FiledRow): string {
  return file === from.file ? `line ${source.line}` : `line ${source.line} of ${file.name}`;
}

function entry<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  if (!map.has(key)) map.set(key, make());
  return map.get(key)!;
}
