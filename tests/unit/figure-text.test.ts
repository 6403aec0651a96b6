import { describe, expect, it } from 'vitest';
import {
  acrossWords,
  differenceText,
  distanceText,
  doubtText,
  figureText,
  signedFigureText,
  thicknessText,
} from '../../components/figure-text.ts';

describe('thicknessText', () => {
  it('shows a reading as it was taken', () => {
    expect(thicknessText(0.47, 'hundredths')).toBe('47');
    expect(thicknessText(0.345, 'hundredths')).toBe('34.5');
    expect(thicknessText(0.47, 'mm')).toBe('0.47');
    expect(thicknessText(0.345, 'mm')).toBe('0.345');
  });

  it('converts to thousandths of an inch', () => {
    // 0.254 mm is ten thousandths by definition.
    expect(thicknessText(0.254, 'thou')).toBe('10.0');
  });
});

describe('differenceText', () => {
  it('carries a sign, a true minus, and none on zero', () => {
    expect(differenceText(0.032, 'hundredths')).toBe('+3');
    expect(differenceText(-0.021, 'hundredths')).toBe('\u22122');
    expect(differenceText(-0.001, 'hundredths')).toBe('0');
    expect(differenceText(-0.021, 'mm')).toBe('\u22120.02');
  });
});

describe('figures with their doubt', () => {
  it('show the first place of the doubt, which is 95 %', () => {
    expect(`${figureText(0.4521, 'hundredths')} ${doubtText(0.0026, 'hundredths')}`).toBe('45.2 ±0.5');
    expect(`${figureText(0.4521, 'mm')} ${doubtText(0.0026, 'mm')}`).toBe('0.452 ±0.005');
    expect(`${figureText(0.4521, 'thou')} ${doubtText(0.0026, 'thou')}`).toBe('17.8 ±0.2');
    expect(signedFigureText(-0.0152, 'hundredths')).toBe('\u22121.5');
    expect(signedFigureText(0.00002, 'hundredths')).toBe('0.0');
  });
});

describe('places', () => {
  it('are distances with one decimal and words across', () => {
    expect(distanceText(3.66)).toBe('3.7');
    expect(distanceText(10, 0, 2)).toBe('10');
    expect([-0.8, -0.4, 0, 0.4, 0.8].map(acrossWords)).toEqual([
      'left edge',
      'left',
      'middle',
      'right',
      'right edge',
    ]);
  });
});
