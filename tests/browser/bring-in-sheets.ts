import type { Blade } from '../../shared/blade.ts';
import { seededRandom } from '../seeded-random.ts';

/** One invented reading. */
export interface SheetReading {
  readonly blade: Blade;
  readonly fromTipMm: number;
  readonly across: number;
  /** In hundredths of a millimetre. */
  readonly count: number;
}

/** A sheet as a maker might have it: its text, what it holds, and what has to be told about it. */
export interface InventedSheet {
  readonly name: string;
  readonly text: string;
  readonly readings: readonly SheetReading[];
  /** Names no reed. */
  readonly isNameless: boolean;
  /** How a block without headings lies. */
  readonly block?: { readonly turned: boolean; readonly blades: 'A' | 'beside' | 'under' };
  /** The maker's own headings of columns. */
  readonly columns?: Readonly<Record<string, string>>;
  /** A cell at fault: what is written, and what was meant. */
  readonly fault?: { readonly written: string; readonly meant: string };
}

const ROWS = [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20];
const ACROSS = [-0.8, -0.4, 0, 0.4, 0.8];
const WORDS = ['left edge', 'left', 'middle', 'right', 'right edge'];
const UNITS = ['hundredths', 'mm'] as const;
const SIGNS = ['.', ','] as const;

type Unit = (typeof UNITS)[number];
type Sign = (typeof SIGNS)[number];

function blade(random: () => number, name: Blade): SheetReading[] {
  return ROWS.flatMap((fromTipMm) =>
    ACROSS.map((across) => {
      const centre = fromTipMm < 6 ? 9 + 6.5 * fromTipMm : 46 + 0.7 * (fromTipMm - 6);
      const count = Math.round(centre * (1 - 0.25 * Math.abs(across)) + 2 * random());
      return { blade: name, fromTipMm, across, count };
    }),
  );
}

const written = (value: number, sign: Sign) => String(value).replace('.', sign);
const thickness = (count: number, unit: Unit, sign: Sign) =>
  unit === 'mm' ? (count / 100).toFixed(2).replace('.', sign) : String(count);

function rowsOf(readings: readonly SheetReading[], name: Blade, unit: Unit, sign: Sign): string[][] {
  return ROWS.map((mm) =>
    readings
      .filter((one) => one.blade === name && one.fromTipMm === mm)
      .map(({ count }) => thickness(count, unit, sign)),
  );
}
const turned = (cells: readonly (readonly string[])[]) =>
  (cells[0] ?? []).map((_, j) => cells.map((row) => row[j] ?? ''));
const text = (cells: readonly (readonly string[])[], between: string) =>
  cells.map((row) => row.join(between)).join('\n');

/** Bare blocks: one blade or two, beside or under each other, along or across, with and without distances. */
function bare(n: number, random: () => number, unit: Unit, sign: Sign, between: string): InventedSheet {
  const blades = (['A', 'beside', 'under'] as const)[n % 3]!;
  const isTurned = n % 2 === 1 && blades !== 'under';
  const a = blade(random, 'A');
  const readings = blades === 'A' ? a : [...a, ...blade(random, 'B')];
  const [A, B] = [rowsOf(readings, 'A', unit, sign), rowsOf(readings, 'B', unit, sign)];
  const cells =
    blades === 'A' ? A : blades === 'under' ? [...A, ...B] : A.map((row, i) => [...row, ...B[i]!]);
  const headed = n % 4 === 2 && !isTurned;
  const lines = headed ? cells.map((row, i) => [written(ROWS[i % ROWS.length]!, sign), ...row]) : cells;
  return {
    name: `bare ${n}`,
    text: text(isTurned ? turned(lines) : lines, between),
    readings,
    isNameless: true,
    block: { turned: isTurned, blades },
  };
}

const HEADINGS = [
  ['Reed no', 'Bl', 'Dist', 'Pos', 'Thick'],
  ['Label', 'Blade', 'Distance from the tip (mm)', 'Place across', 'Reading'],
  ['reed', 'blade', 'from_tip_mm', 'across', 'thickness'],
] as const;

/** One reading a row, headed in other words; places across by number or by word. */
function long(n: number, random: () => number, unit: Unit, sign: Sign, between: string): InventedSheet {
  const readings = [...blade(random, 'A'), ...blade(random, 'B')];
  const [reed, bl, tip, across, thick] = HEADINGS[n % HEADINGS.length]!;
  const own = n % 5 === 4;
  const head = [
    reed,
    bl,
    tip,
    across,
    own ? 'dial' : unit === 'mm' ? `${thick} (mm)` : `${thick} hundredths`,
  ];
  const rows = readings.map((one) => [
    `S-${n}`,
    n % 2 === 0 ? one.blade : `blade ${one.blade.toLowerCase()}`,
    written(one.fromTipMm, sign),
    n % 3 === 0 ? WORDS[ACROSS.indexOf(one.across)]! : written(one.across, sign),
    thickness(one.count, unit, sign),
  ]);
  const fault = n % 4 === 1 ? { written: '4O x', meant: rows[30]![4]! } : undefined;
  if (fault) rows[30]![4] = fault.written;
  return {
    name: `long ${n}`,
    text: text([head, ...rows], between),
    readings,
    isNameless: false,
    ...(own && { columns: { thickness_mm: 'dial' } }),
    ...(fault && { fault }),
  };
}

/** A maker's sheet: blade over its block, places across over the columns. */
function wide(n: number, random: () => number, unit: Unit, sign: Sign, between: string): InventedSheet {
  const readings = [...blade(random, 'A'), ...blade(random, 'B')];
  const lines = (['A', 'B'] as const).flatMap((name) => [
    `Blade ${name}, bark side, tip up`,
    ['mm from tip', ...ACROSS.map((share) => written(share, sign))].join(between),
    ...rowsOf(readings, name, unit, sign).map((row, i) => [written(ROWS[i]!, sign), ...row].join(between)),
  ]);
  return {
    name: `wide ${n}`,
    text: [`W-${n}`, `unit${between}${unit}`, ...lines].join('\n'),
    readings,
    isNameless: false,
  };
}

/** Sixty sheets in many shapes, units and decimal signs, some with a cell at fault. */
export function inventedSheets(seed: number): InventedSheet[] {
  const random = seededRandom(seed);
  return Array.from({ length: 60 }, (_, n) => {
    const unit = UNITS[n % 2]!;
    const sign = SIGNS[Math.floor(n / 2) % 2]!;
    const between = ['\t', ';', sign === '.' ? ',' : '\t'][n % 3]!;
    return [bare, long, wide][Math.floor(n / 4) % 3]!(n, random, unit, sign, between);
  });
}
