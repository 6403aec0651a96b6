import { describe, expect, it } from 'vitest';
import type { ThicknessUnit } from '../../shared/units.ts';
import { differenceText, figureText, placeText, signedFigureText } from '../../components/figure-text.ts';

const as = (unit: ThicknessUnit) => ({ unit, decimal: 'point' }) as const;

describe('differenceText', () => {
  it('carries a sign, a true minus, and none on zero', () => {
    expect(differenceText(0.032, as('hundredths'))).toBe('+3');
    expect(differenceText(-0.021, as('hundredths'))).toBe('\u22122');
    expect(differenceText(-0.001, as('hundredths'))).toBe('0');
    expect(differenceText(-0.021, as('mm'))).toBe('\u22120.02');
  });
});

describe('worked-out figures', () => {
  it('have as many digits as their doubt usually leaves', () => {
    const figures = (['hundredths', 'mm', 'thou'] as const).map((unit) => figureText(0.4521, as(unit)));
    expect(figures).toEqual(['45.2', '0.452', '17.8']);
    expect(signedFigureText(-0.0152, as('hundredths'))).toBe('\u22121.5');
    expect(signedFigureText(0.00002, as('hundredths'))).toBe('0.0');
  });
});

it('writes a thickness at its place rounded once, in the maker’s unit', () => {
  // 0.4662 mm is 18.354 thousandths of an inch; by way of 0.47 mm it would be 18.5.
  expect((['hundredths', 'mm', 'thou'] as const).map((unit) => placeText(0.4662, as(unit)))).toEqual([
    ...['47', '0.47', '18.4'],
  ]);
});
