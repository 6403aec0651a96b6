import * as fc from 'fast-check';
import { flagSchema, roleSchema, type Reading } from '../../../shared/reading.ts';
import type { ReedDraft } from '../../../src/exchange/csv/drafts.ts';

/** Texts that try to be a formula, markup, a key of an object, or more than one cell. */
export const AWKWARD = [
  '=1+1',
  '+1+1',
  '-2+3',
  '@SUM(A1)',
  '\t=1',
  "'=1",
  "''-x",
  ' =1',
  '＝1',
  '-0.5',
  '+4',
  '"quoted"',
  'a,b;c\td',
  'two\nlines',
  'two\r\nlines',
  '<img src=x onerror=alert(1)>',
  '${1}',
  'toString',
  'own:reed',
  'thickness mm',
  'Blade A',
  '1.234',
];

const text = (maxLength: number) =>
  fc.oneof(
    fc.constantFrom(...AWKWARD.filter(({ length }) => length <= maxLength)),
    fc.string({ maxLength, unit: 'grapheme' }).filter((made) => made.length <= maxLength),
  );
/** A text without the characters that no text file may hold. */
const fileText = (maxLength: number) => text(maxLength).map((made) => made.replace(/[^\P{Cc}\t\n\r]/gu, ''));
const label = fileText(40)
  .map((made) => made.trim())
  .filter((made) => made !== '');
const decimals = (min: number, max: number, places: number) =>
  fc
    .integer({ min: Math.ceil(min * 10 ** places), max: Math.floor(max * 10 ** places) })
    .map((whole) => whole / 10 ** places);
const optional = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
const present = (value: object) =>
  Object.fromEntries(Object.entries(value).filter(([, part]) => part !== undefined));

const extra = fc
  .uniqueArray(
    fc.tuple(
      fileText(20),
      fileText(30).filter((made) => made !== ''),
    ),
    { maxLength: 2, selector: ([key]) => key.replace(/\r\n?/g, '\n').trim() },
  )
  .map((pairs) => (pairs.length > 0 ? Object.fromEntries(pairs) : undefined));

const reading = fc
  .record({
    blade: fc.constantFrom('A' as const, 'B' as const),
    fromTipMm: decimals(-1, 60, 2),
    across: decimals(-1, 1, 2),
    thicknessMm: optional(fc.oneof(decimals(0.001, 2, 3), fc.double({ min: 1e-9, max: 2, noNaN: true }))),
    repeat: fc.integer({ min: 0, max: 3 }),
    flag: fc.constantFrom(...flagSchema.options),
    role: fc.constantFrom(...roleSchema.options),
    method: optional(fileText(20).filter((made) => made !== '')),
    seconds: optional(decimals(0, 5000, 1)),
    extra,
  })
  .map((made) => present(made) as unknown as Reading);

const pass = fc
  .record({
    index: fc.integer({ min: 0, max: 5 }),
    overallLengthMm: optional(decimals(40, 100, 2)),
    clipMm: optional(decimals(0, 5, 2)),
    wetness: optional(fc.constantFrom('dry' as const, 'damp' as const, 'wet' as const)),
    soakMin: optional(decimals(0, 2000, 0)),
    threadMm: optional(decimals(20, 90, 1)),
    gaugeStepMm: optional(fc.constantFrom(0.001, 0.01)),
    zeroBeforeMm: optional(decimals(-1, 1, 3)),
    zeroAfterMm: optional(decimals(-1, 1, 3)),
    readings: fc.uniqueArray(reading, {
      ...{ minLength: 1, maxLength: 12 },
      selector: ({ role, blade, fromTipMm, across, repeat }) =>
        [role, blade, fromTipMm, across + 0, repeat].join(),
    }),
  })
  .map((made) => present(made) as unknown as ReedDraft['passes'][number]);

/** Reeds with every field that a file of readings can hold. */
export const reedDrafts: fc.Arbitrary<ReedDraft[]> = fc.uniqueArray(
  fc.record({
    label,
    passes: fc.uniqueArray(pass, { minLength: 1, maxLength: 3, selector: ({ index }) => index }),
  }),
  { minLength: 1, maxLength: 3, selector: (reed) => reed.label.replace(/\r\n?/g, '\n') },
);
