import { describe, expect, it } from 'vitest';
import type { ThicknessUnit } from '../../shared/units.ts';
import {
  differenceText,
  doubtText,
  figureText,
  plainText,
  readingText,
  signedFigureText,
} from '../../components/figure-text.ts';

const as = (unit: ThicknessUnit) => ({ unit, decimal: 'point' }) as const;

describe('readingText', () => {
  it('shows a reading as it was taken', () => {
    expect(readingText(0.47, as('hundredths'))).toBe('47');
    expect(readingText(0.345, as('hundredths'))).toBe('34.5');
    expect(readingText(0.47, as('mm'))).toBe('0.47');
    expect(readingText(0.345, as('mm'))).toBe('0.345');
  });

  it('converts to thousandths of an inch', () => {
    // 0.254 mm is ten thousandths by definition.
    expect(readingText(0.254, as('thou'))).toBe('10.0');
  });

  it("uses the maker's decimal sign", () => {
    expect(readingText(0.345, { unit: 'hundredths', decimal: 'comma' })).toBe('34,5');
  });
});

describe('differenceText', () => {
  it('carries a sign, a true minus, and none on zero', () => {
    expect(differenceText(0.032, as('hundredths'))).toBe('+3');
    expect(differenceText(-0.021, as('hundredths'))).toBe('\u22122');
    expect(differenceText(-0.001, as('hundredths'))).toBe('0');
    expect(differenceText(-0.021, as('mm'))).toBe('\u22120.02');
  });
});

describe('figures with their doubt', () => {
  it('show the first place of the doubt, which is 95 %', () => {
    const both = (unit: ThicknessUnit) => `${figureText(0.4521, as(unit))} ${doubtText(0.0026, as(unit))}`;
    expect(both('hundredths')).toBe('45.2 ±0.5');
    expect(both('mm')).toBe('0.452 ±0.005');
    expect(both('thou')).toBe('17.8 ±0.2');
    expect(signedFigureText(-0.0152, as('hundredths'))).toBe('\u22121.5');
    expect(signedFigureText(0.00002, as('hundredths'))).toBe('0.0');
  });
});

describe('plainText', () => {
  it('writes no needless decimals', () => {
    expect([10, 0.5, -0.25, 2.999_999_9].map((value) => plainText(value, 'point'))).toEqual([
      '10',
      '0.5',
      '\u22120.25',
      '3',
    ]);
  });
});
