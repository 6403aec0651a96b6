import type { ThicknessUnit } from '../../../shared/units.ts';
import type { ReedDraft } from './drafts.ts';
import type { DecimalSign } from './number-text.ts';

/** What was understood of the files, for a maker to agree to. */
export interface Understood {
  readonly reeds: number;
  readonly passes: number;
  readonly blades: number;
  /** Distances from the tip that were read on the blade with most of them. */
  readonly rows: number;
  readonly readings: number;
  readonly missing: number;
  /** Absent where no number has a decimal sign, and where the files differ. */
  readonly decimal?: DecimalSign;
  /** Absent where the files differ. */
  readonly unit?: ThicknessUnit;
  /** For example 'Two blades, 14 rows, decimal commas, 138 readings, 2 missing.' */
  readonly sentence: string;
}

const SMALL = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine'];

interface FileWriting {
  readonly blanks: number;
  readonly decimal?: DecimalSign;
  readonly unit?: ThicknessUnit;
}

/** Counts what the files hold and puts it into a sentence. */
export function summarise(reeds: readonly ReedDraft[], files: readonly FileWriting[]): Understood {
  const passes = reeds.flatMap((reed) => reed.passes);
  const readings = passes.flatMap((pass) => pass.readings);
  const read = readings.filter(({ thicknessMm }) => thicknessMm !== undefined).length;
  const distances = new Map<string, Set<number>>();
  for (const { blade, fromTipMm } of readings)
    distances.set(blade, (distances.get(blade) ?? new Set()).add(fromTipMm));
  const decimal = theOne(files.map((file) => file.decimal));
  const unit = theOne(files.map((file) => file.unit));
  const counts = {
    reeds: reeds.length,
    passes: passes.length,
    blades: distances.size,
    rows: Math.max(0, ...Array.from(distances.values(), ({ size }) => size)),
    readings: read,
    missing: readings.length - read + files.reduce((sum, { blanks }) => sum + blanks, 0),
    ...(decimal && { decimal }),
    ...(unit && { unit }),
  };
  return { ...counts, sentence: sentence(counts) };
}

function sentence({
  reeds,
  passes,
  blades,
  rows,
  decimal,
  unit,
  readings,
  missing,
}: Omit<Understood, 'sentence'>): string {
  const parts = [
    reeds > 1 && counted(reeds, 'reed'),
    passes > reeds && counted(passes, 'pass', 'passes'),
    counted(blades, 'blade'),
    counted(rows, 'row'),
    decimal && `decimal ${decimal}s`,
    unit !== 'mm' && unit,
    counted(readings, 'reading'),
    missing > 0 && `${missing} missing`,
  ].filter((part) => typeof part === 'string');
  const [first, ...rest] = parts;
  return `${[first!.replace(/^\d\b/, (digit) => SMALL[Number(digit)]!), ...rest].join(', ')}.`;
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** The value that all have in common, those without one aside. */
function theOne<T>(values: readonly (T | undefined)[]): T | undefined {
  const different = new Set(values.filter((value) => value !== undefined));
  return different.size === 1 ? [...different][0] : undefined;
}
