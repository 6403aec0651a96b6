import { expect, it } from 'vitest';
import { sayFault, sayReadAgain, sayRemedy } from '../../../src/answers/fault-words.ts';
import type { Fault } from '../../../src/faults/fault.ts';

const hundredths = { unit: 'hundredths', decimal: 'point' } as const;
const thou = { unit: 'thou', decimal: 'comma' } as const;
const fault = (part: Partial<Fault>): Fault => ({
  kind: 'zero',
  blade: 'both',
  grade: 'named',
  evidence: 9,
  ...part,
});
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

it('states what is sure and asks about what is not, in the maker’s unit', () => {
  const zero = { valueMm: 0.02 };
  expect(plain(sayFault(fault(zero), hundredths))).toBe(
    'Both blades read 2 hundredths thicker all over than before. The gauge’s zero had moved.',
  );
  expect(plain(sayFault(fault({ ...zero, grade: 'asked' }), hundredths))).toContain(
    'Had the gauge’s zero moved?',
  );
  expect(plain(sayFault(fault({ ...zero, orElse: ['clip'] }), hundredths))).toContain(
    'Had the gauge’s zero moved?',
  );
  expect(plain(sayFault(fault({ blade: 'A', valueMm: -0.0254 }), thou))).toContain(
    'Blade A reads 1 thou thinner all over',
  );
});

it('has a sentence for every kind', () => {
  const place = { fromTipMm: 5, across: -0.4 };
  const said = (
    [
      { kind: 'swelling', factor: 0.983 },
      { kind: 'swapped' },
      { kind: 'mirrored', blade: 'B', grade: 'asked' },
      { kind: 'clip', valueMm: 0.4 },
      { kind: 'shifted', valueMm: -0.5 },
      { kind: 'digits', blade: 'B', valueMm: 0.35, place },
      { kind: 'digits', blade: 'B', place },
      { kind: 'increase', blade: 'A', valueMm: 0.021, place },
    ] as const
  ).map((part) => plain(sayFault(fault(part), hundredths)));
  expect(said).toEqual([
    'The cane reads 1.7 % thinner than it was. It was drier.',
    'A and B were written for each other: exchanged, they fit the pass before.',
    'Was B read from the other side? Left for right, it fits the pass before better.',
    'The slopes read as if 0.4 mm of the tip were gone. A clip was not entered.',
    'The readings of both blades lie 0.5 mm nearer to the tip than they are written.',
    'B, 5 mm, left: 35 fits what was expected, and what was written is a slip of it.',
    'B, 5 mm, left reads thicker than the cane was. Read it again.',
    'A, about 5 mm, left, reads 2 hundredths thicker than it was, and cane does not grow. Read it again.',
  ]);
});

it('says how sure a length is, at 95 %', () => {
  const said = (part: Partial<Fault>) => plain(sayFault(fault({ uMm: 0.077, ...part }), hundredths));
  expect(said({ kind: 'clip', valueMm: 0.31 })).toContain('as if 0.3 ±0.2 mm of the tip were gone');
  expect(said({ kind: 'shifted', valueMm: -0.5 })).toContain('lie 0.5 ±0.2 mm nearer to the tip');
});

it('says what each remedy does', () => {
  const done = (
    [
      { kind: 'zero', blade: 'both', addedMm: 0.02 },
      { kind: 'swelling', blade: 'both', factor: 1.017 },
      { kind: 'swapped' },
      { kind: 'mirrored', blade: 'B' },
      { kind: 'clip', clipMm: 0.4 },
      { kind: 'shifted', blade: 'A', shiftMm: 0.5 },
      { kind: 'digits', blade: 'B', fromTipMm: 5, across: -0.4, thicknessMm: 0.35 },
    ] as const
  ).map((remedy) => plain(sayRemedy(remedy, hundredths)));
  expect(done).toEqual([
    'every reading of both blades counts as 2 hundredths less',
    'every reading of both blades counts as 1.7 % less',
    'A counts as B, and B as A',
    'left counts as right on blade B',
    'it counts with 0.4 mm clipped before it',
    'every reading of blade A counts 0.5 mm further from the tip',
    'B, 5 mm, left counts as 35',
  ]);
});

it('never calls an isolated low reading a slip', () => {
  const place = { blade: 'B', fromTipMm: 10, across: 0.4, readMm: 0.35, expectedMm: 0.404 } as const;
  expect(plain(sayReadAgain(place, hundredths))).toBe(
    'B, 10 mm, right, reads 35 where 40 was expected: a dig, or a slip? Read this place again; until then it counts.',
  );
  expect(plain(sayReadAgain({ ...place, inDoubt: true }, hundredths))).toContain(
    'until then it weighs little.',
  );
});

it('says of a drift what it did from the first reading to the last, and what its remedy does', () => {
  const drift = { kind: 'drift', blade: 'both', evidence: 9, valueMm: 0.02, uMm: 0.003 } as const;
  const seen = 'From the first reading to the last the gauge came to read 2 hundredths thicker.';
  expect(plain(sayFault({ ...drift, grade: 'named' }, hundredths))).toBe(`${seen} Its zero had crept.`);
  expect(plain(sayFault({ ...drift, grade: 'asked' }, hundredths))).toBe(`${seen} Had its zero crept?`);
  expect(plain(sayRemedy({ kind: 'drift', driftMm: 0.02 }, hundredths))).toBe(
    'the first reading counts as it is, the last as 2 hundredths less, and those between in step',
  );
});
