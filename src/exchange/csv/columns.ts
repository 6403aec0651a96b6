import * as z from 'zod';
import { labelSchema } from '../../../shared/fields.ts';
import { passSchema, type Pass } from '../../../shared/pass.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { ThicknessUnit } from '../../../shared/units.ts';

/** What a file of readings can say of a pass. */
export const passFactsSchema = passSchema.pick({
  index: true,
  overallLengthMm: true,
  wetness: true,
  soakMin: true,
  threadMm: true,
  gaugeStepMm: true,
  zeroBeforeMm: true,
  zeroAfterMm: true,
  clipMm: true,
});
export type PassFacts = z.infer<typeof passFactsSchema>;
export const reedFactsSchema = z.strictObject({ label: labelSchema });

type Field = 'label' | (keyof PassFacts & keyof Pass) | Exclude<keyof Reading, 'extra'>;

interface ColumnKind {
  readonly of: 'reed' | 'pass' | 'reading';
  readonly field: Field;
  readonly holds: 'number' | 'word' | 'text';
  /** Continues the sentence 'expected was'. */
  readonly expected: string;
  /** Other headings that makers write, in lower case with single spaces. */
  readonly also: readonly string[];
}

const word = (...words: string[]) => `one of ${words.join(', ')}`;
const length = (what: string, from: number, to: number) => `${what} from ${from} to ${to} mm`;

/** The columns of the long form, in the order in which they are written. */
export const COLUMNS = {
  reed: {
    of: 'reed',
    field: 'label',
    holds: 'text',
    expected: 'a label of 1 to 80 characters',
    also: ['label', 'reed label', 'reed no', 'reed number', 'reed name'],
  },
  pass: {
    of: 'pass',
    field: 'index',
    holds: 'number',
    expected: 'a whole pass number from 0 to 999',
    also: ['pass index', 'pass number', 'pass no', 'go', 'scrape no'],
  },
  overall_length_mm: {
    of: 'pass',
    field: 'overallLengthMm',
    holds: 'number',
    expected: length('an overall length', 40, 100),
    also: ['overall length', 'overall', 'oal', 'oal mm', 'total length', 'total length mm', 'length overall'],
  },
  state: {
    of: 'pass',
    field: 'wetness',
    holds: 'word',
    expected: word('dry', 'damp', 'wet'),
    also: ['wetness', 'reed was', 'dry damp wet', 'wet or dry'],
  },
  soak_min: {
    of: 'pass',
    field: 'soakMin',
    holds: 'number',
    expected: 'soaking minutes from 0 to 10000',
    also: ['soak', 'soaked min'],
  },
  thread_mm: {
    of: 'pass',
    field: 'threadMm',
    holds: 'number',
    expected: length('a height of the thread', 20, 90),
    also: ['thread'],
  },
  gauge_step_mm: {
    of: 'pass',
    field: 'gaugeStepMm',
    holds: 'number',
    expected: 'a step of the gauge of more than 0 and up to 0.1 mm',
    also: ['gauge step'],
  },
  zero_before_mm: {
    of: 'pass',
    field: 'zeroBeforeMm',
    holds: 'number',
    expected: length('a zero', -1, 1),
    also: ['zero before'],
  },
  zero_after_mm: {
    of: 'pass',
    field: 'zeroAfterMm',
    holds: 'number',
    expected: length('a zero', -1, 1),
    also: ['zero after'],
  },
  clip_mm: {
    of: 'pass',
    field: 'clipMm',
    holds: 'number',
    expected: length('a clip', 0, 5),
    also: ['clip', 'clipped mm'],
  },
  role: { of: 'reading', field: 'role', holds: 'word', expected: word('station', 'control'), also: [] },
  blade: {
    of: 'reading',
    field: 'blade',
    holds: 'word',
    expected: word('A', 'B'),
    also: ['bl', 'blade a b', 'a b'],
  },
  from_tip_mm: {
    of: 'reading',
    field: 'fromTipMm',
    holds: 'number',
    expected: length('a distance from the tip', -1, 60),
    also: [
      ...[
        'from tip',
        'mm from tip',
        'distance from tip',
        'distance from tip mm',
        'tip mm',
        'tip',
        'distance',
      ],
      ...['distance mm', 'dist', 'dist mm', 'from the tip', 'mm from the tip', 'distance from the tip'],
      'distance from the tip mm',
    ],
  },
  across: {
    of: 'reading',
    field: 'across',
    holds: 'number',
    expected: 'a position across from -1 at the left edge to 1 at the right',
    also: ['position', 'position across', 'pos', 'place across', 'across the blade', 'place'],
  },
  thickness_mm: {
    of: 'reading',
    field: 'thicknessMm',
    holds: 'number',
    expected: 'a thickness of more than 0 and up to 2 mm',
    also: [],
  },
  repeat: {
    of: 'reading',
    field: 'repeat',
    holds: 'number',
    expected: 'a whole number from 0 that counts the readings of one station',
    also: [],
  },
  flag: {
    of: 'reading',
    field: 'flag',
    holds: 'word',
    expected: word('ok', 'weak', 'doubtful', 'no-cane', 'wire'),
    also: [],
  },
  method: { of: 'reading', field: 'method', holds: 'text', expected: 'at most 40 characters', also: [] },
  seconds: {
    of: 'reading',
    field: 'seconds',
    holds: 'number',
    expected: 'seconds from 0 to 1000000',
    also: [],
  },
} as const satisfies Record<string, ColumnKind>;

export type Column = keyof typeof COLUMNS;
export const COLUMN_NAMES = Object.keys(COLUMNS) as Column[];
/** Without these a row is no reading. */
export const NEEDED: readonly Column[] = ['blade', 'from_tip_mm', 'across', 'thickness_mm'];

/** A heading that the bench knows; `unit` where a thickness heading names one. */
export interface KnownHeading {
  readonly column: Column;
  readonly unit?: ThicknessUnit;
}

const THICKNESS_WORDS = [
  'thickness',
  'reading',
  'gauge',
  'gauge reading',
  'thick',
  'thk',
  'measured',
  'dial reading',
];
const UNIT_WORDS: Readonly<Record<ThicknessUnit, readonly string[]>> = {
  mm: ['mm', 'millimetres'],
  hundredths: ['hundredths', 'hundredths mm', '1 100 mm', '0 01 mm'],
  thou: ['thou', 'thousandths', 'thousandths inch', '1 1000 in'],
};

const KNOWN = new Map<string, KnownHeading>(knownHeadings());

function* knownHeadings(): Generator<[string, KnownHeading]> {
  for (const column of COLUMN_NAMES) {
    for (const heading of [column.replaceAll('_', ' '), ...COLUMNS[column].also]) yield [heading, { column }];
  }
  for (const what of THICKNESS_WORDS) {
    yield [what, { column: 'thickness_mm' }];
    for (const [unit, words] of Object.entries(UNIT_WORDS) as [ThicknessUnit, string[]][]) {
      for (const name of words) yield [`${what} ${name}`, { column: 'thickness_mm', unit }];
    }
  }
}

/** What a heading means, whatever its case, underscores, brackets and the word 'in'; undefined where it is the maker's own. */
export function knownHeading(text: string): KnownHeading | undefined {
  const plain = text
    .toLowerCase()
    .replace(/[\s_.,:;()[\]/-]+/g, ' ')
    .replace(/ (in|of a|of an) /g, ' ')
    .trim();
  return KNOWN.get(plain);
}

/** The unit that a cell of a sheet names by itself, such as `hundredths` or `readings in mm`. */
export function namedUnit(text: string): ThicknessUnit | undefined {
  const plain = text
    .toLowerCase()
    .replace(/^(all )?(thickness|readings?|unit)?( are)?( in)? /, '')
    .trim();
  for (const [unit, words] of Object.entries(UNIT_WORDS) as [ThicknessUnit, string[]][]) {
    if (words.includes(plain.replaceAll('/', ' '))) return unit;
  }
  return undefined;
}
