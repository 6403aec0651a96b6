import { describe, expect, it } from 'vitest';
import {
  acrossWords,
  apartWords,
  countWord,
  isMeasurable,
  listed,
  placeWords,
  sentence,
} from '../../../src/words/figure-words.ts';
import { doubtText, takeText } from '../../../src/words/format.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;

it('calls measurable what is beyond 1.959964 standard uncertainties, the two-sided 95 % of a normal distribution', () => {
  const measurable = (valueMm: number) => isMeasurable({ valueMm, uMm: 0.01 });
  expect([0.0195, 0.0197, -0.0195, -0.0197].map(measurable)).toEqual([false, true, false, true]);
});

it('says distances that a hand knows in words, others in tenths', () => {
  const words = (mm: number) => apartWords(mm, writing);
  expect([0.43, 0.5, -0.57].map(words)).toEqual(Array.from({ length: 3 }, () => 'half a millimetre'));
  expect([0.42, 0.58].map(words)).toEqual(['0.4\u00a0mm', '0.6\u00a0mm']);
  expect([0.91, -1.09].map(words)).toEqual(['a millimetre', 'a millimetre']);
  expect([0.89, 1.11].map(words)).toEqual(['0.9\u00a0mm', '1.1\u00a0mm']);
});

it('rounds places to a tenth, and writes no needless nought', () => {
  expect([10, 9.96, 0.54].map((mm) => placeWords(mm, writing))).toEqual([
    '10\u00a0mm',
    '10\u00a0mm',
    '0.5\u00a0mm',
  ]);
});

it('names places across as the maker sees them, bark side and tip up', () => {
  expect([-1, -0.65, -0.64, -0.1, -0.09, 0, 0.09, 0.1, 0.64, 0.65, 1].map(acrossWords)).toEqual([
    ...['left\u00a0edge', 'left\u00a0edge', 'left', 'left', 'middle', 'middle'],
    ...['middle', 'right', 'right', 'right\u00a0edge', 'right\u00a0edge'],
  ]);
});

it('counts in words to ten, lists with commas and one and, and begins a sentence', () => {
  expect([0, 1, 10, 11].map(countWord)).toEqual(['no', 'one', 'ten', '11']);
  expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listed)).toEqual(['', 'a', 'a and b', 'a, b and c']);
  expect(sentence('Ab. c')).toBe('Ab. c');
  expect(sentence('ab. C')).toBe('Ab. C');
});

describe('a number alone', () => {
  it('is a doubt of 95 %, a digit finer than beside a figure', () => {
    expect(doubtText(0.003, writing)).toBe('±0.59');
    expect(doubtText(0.003, { unit: 'mm', decimal: 'comma' })).toBe('±0,0059');
    // 0.00588 mm in thousandths of 25.4 mm.
    expect(doubtText(0.003, { unit: 'thou', decimal: 'point' })).toBe('±0.23');
  });

  it('never asks for more than was meant', () => {
    expect(takeText(0.03, writing)).toBe('3');
    expect(takeText(0.015, writing)).toBe('1.5');
    // 1.1811 thou.
    expect(takeText(0.03, { unit: 'thou', decimal: 'point' })).toBe('1.1');
    expect(takeText(0.0159, { unit: 'thou', decimal: 'point' })).toBe('0.6');
  });
});
