import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  airFigure,
  amountText,
  differenceFigure,
  distanceFigure,
  distanceText,
  doubtDigits,
  joined,
  numberText,
  plainText,
  playedText,
  readingText,
  signedText,
  stationText,
  quantityText,
  thicknessFigure,
  volumeFigure,
  writtenFigure,
  COVERAGE,
  type NumberFormat,
} from '../../../src/words/format.ts';

const hundredths: NumberFormat = { unit: 'hundredths', decimal: 'point' };
const mm: NumberFormat = { unit: 'mm', decimal: 'point' };
const thou: NumberFormat = { unit: 'thou', decimal: 'point' };
const comma: NumberFormat = { unit: 'mm', decimal: 'comma' };
/** A figure whose shown ± is this many mm. */
const measured = (valueMm: number, doubtMm: number) => ({ valueMm, uMm: doubtMm / COVERAGE });
const nbsp = (text: string) => text.replaceAll('\u00a0', ' ');

describe('a thickness with its doubt', () => {
  const heart = measured(0.4517, 0.0052);

  it('has one decimal in hundredths, three in mm, one in thousandths of an inch', () => {
    expect(nbsp(joined(thicknessFigure(heart, hundredths)))).toBe('45.2 ±0.5');
    expect(nbsp(joined(thicknessFigure(heart, mm)))).toBe('0.452 ±0.005');
    expect(nbsp(joined(thicknessFigure(heart, thou)))).toBe('17.8 ±0.2');
  });

  it("takes the maker's decimal sign", () => {
    expect(nbsp(joined(thicknessFigure(heart, comma)))).toBe('0,452 ±0,005');
  });

  it('never shows more than two figures of doubt', () => {
    expect(nbsp(joined(thicknessFigure(measured(0.4517, 0.123), hundredths)))).toBe('45 ±12');
    expect(nbsp(joined(thicknessFigure(measured(0.4517, 0.0996), hundredths)))).toBe('45 ±10');
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 90, noNaN: true }), (doubt) => {
        const digits = doubtDigits(doubt, 1);
        const figures = doubt.toFixed(digits).replace('.', '').replace(/^0+/, '');
        expect(figures.length).toBeGreaterThan(0);
        expect(figures.length).toBeLessThanOrEqual(2);
      }),
    );
  });

  it('shows a small doubt by its first figure instead of as nothing', () => {
    expect(nbsp(joined(thicknessFigure(measured(0.45174, 0.0003), hundredths)))).toBe('45.17 ±0.03');
  });
});

describe('a difference', () => {
  it('carries its sign, with a true minus, and none on zero', () => {
    expect(differenceFigure(measured(0.032, 0.009), hundredths).value).toBe('+3.2');
    expect(differenceFigure(measured(-0.015, 0.009), hundredths).value).toBe('\u22121.5');
    expect(signedText(0.04, 1, hundredths)).toBe('0.0');
    expect(signedText(-0.04, 1, hundredths)).toBe('0.0');
  });

  it('stands in brackets inside its doubt', () => {
    expect(differenceFigure(measured(0.004, 0.01), hundredths)).toEqual({
      value: '(+0.4)',
      doubt: '±1.0',
      inDoubt: true,
    });
  });
});

describe('other figures', () => {
  it('writes distances in mm whatever the unit', () => {
    expect(nbsp(joined(distanceFigure(measured(3.704, 0.12), thou)))).toBe('3.7 ±0.1');
    expect(nbsp(distanceText(3.7, comma))).toBe('3,7 mm');
    expect(nbsp(stationText(10, comma))).toBe('10 mm');
    expect(nbsp(stationText(0.5, comma))).toBe('0,5 mm');
  });

  it.each([
    // Values and 95 % doubts by hand; a figure inside its doubt stands in brackets where its sign matters.
    ['ratio', 0.7431, 0.01, '0.74', '±0.01'],
    ['share', 0.7431, 0.012, '74.3', '±1.2'],
    ['share difference', -0.02, 0.012, '−2.0', '±1.2'],
    ['volume', 41.26, 0.31, '41.3', '±0.3'],
    ['volume taken', 0.311, 0.4, '(+0.31)', '±0.40'],
    ['frequency', 493.88, 0.5, '493.9', '±0.5'],
    ['pitch', -12.4, 3, '−12', '±3'],
    ['distance', 3.71, 0.12, '3.7', '±0.1'],
    ['thickness', 0.4526, 0.0051, '45.3', '±0.5'],
    ['difference', 0.004, 0.01, '(+0.4)', '±1.0'],
  ] as const)('writes a %s of %d ±%d', (quantity, value, doubt, number, plusMinus) => {
    expect(writtenFigure({ quantity, value, u: doubt / COVERAGE }, hundredths)).toMatchObject({
      value: number,
      doubt: plusMinus,
    });
  });

  it('writes what has no doubt, no value or a note', () => {
    expect(writtenFigure({ quantity: 'reading', value: 0.47 }, hundredths)).toBe('47');
    expect(writtenFigure({ quantity: 'thickness', value: 0.0212 }, hundredths)).toBe('2.1');
    expect(writtenFigure({ quantity: 'thickness', absent: 'not read' }, mm)).toEqual({ none: 'not read' });
    const most = { quantity: 'difference', value: 0.08, u: 0.01, note: 'B' } as const;
    expect(writtenFigure(most, hundredths)).toMatchObject({ doubt: '±2.0 B' });
  });

  it('writes amounts with their unit by the decimal sign of the maker', () => {
    expect(nbsp(quantityText('hours', 2.54, { decimal: 'comma' }))).toBe('2,5 h');
    expect(nbsp(quantityText('hours', 19.04, comma))).toBe('19 h');
    expect([20, 59, 60, 90].map((minutes) => nbsp(playedText(minutes, comma)))).toEqual([
      ...['20 min', '59 min', '1 h', '1,5 h'],
    ]);
    expect(nbsp(quantityText('pitch', 12.4, mm))).toBe('+12 cents');
    expect(nbsp(quantityText('frequency', 493.88, mm))).toBe('493.9 Hz');
  });

  it('shows a reading with the digits that were read', () => {
    expect(readingText(0.47, hundredths)).toBe('47');
    expect(readingText(0.467, hundredths)).toBe('46.7');
    expect(readingText(0.47, mm)).toBe('0.47');
    expect(readingText(0.467, comma)).toBe('0,467');
    expect(readingText(0.47, thou)).toBe('18.5');
  });

  it('rounds amounts in sentences', () => {
    expect(nbsp(amountText(0.0318, hundredths))).toBe('3 hundredths');
    expect(nbsp(amountText(-0.0104, hundredths))).toBe('1 hundredth');
    expect(nbsp(amountText(0.0152, hundredths))).toBe('1.5 hundredths');
    expect(nbsp(amountText(0.0318, mm))).toBe('0.03 mm');
    expect(nbsp(amountText(0.0266, mm))).toBe('0.025 mm');
    expect(nbsp(amountText(0.0318, thou))).toBe('1.5 thou');
    // What is told is never called nothing: 0.0052 mm is 0.2 thou.
    expect(nbsp(amountText(0.0052, thou))).toBe('0.2 thou');
    expect(nbsp(amountText(0.0014, hundredths))).toBe('0.1 hundredths');
    expect(nbsp(amountText(0.0014, mm))).toBe('0.001 mm');
  });

  it('never loses the sign of a number to rounding, nor invents one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (value, digits) => {
          const text = numberText(value, digits, hundredths);
          const back = Number(text.replace('\u2212', '-'));
          expect(Math.abs(back - value)).toBeLessThanOrEqual(0.5 * 10 ** -digits * (1 + 1e-9) + 1e-12);
          expect(text.startsWith('\u2212')).toBe(back < 0);
        },
      ),
    );
  });
});

describe('a number without needless decimals', () => {
  it('keeps those that say something', () => {
    expect([10, 0.5, -0.25, 2.999_999_9].map((value) => plainText(value, { decimal: 'point' }))).toEqual([
      '10',
      '0.5',
      '\u22120.25',
      '3',
    ]);
  });

  it('has the maker’s decimal sign', () => {
    expect([0.5, -0.25, 10].map((value) => plainText(value, comma))).toEqual(['0,5', '\u22120,25', '10']);
    expect(nbsp(stationText(0.5, comma))).toBe('0,5 mm');
  });
});

it('writes a volume that was taken with its sign, and in brackets inside its doubt', () => {
  const volume = (value: number, doubt: number) =>
    joined(volumeFigure({ value, u: doubt / COVERAGE }, comma));
  expect(nbsp(volume(1.254, 0.31))).toBe('+1,25 ±0,31');
  expect(nbsp(volume(0.2, 0.31))).toBe('(+0,20) ±0,31');
});

it('asks an element for its decimal sign, which is none of the element’s own fields', () => {
  class Shown {
    get decimal() {
      return 'comma' as const;
    }
  }
  expect(nbsp(quantityText('hours', 1.5, new Shown()))).toBe('1,5 h');
  expect(airFigure('temperature', { value: 21.5, u: 0.4 }, new Shown()).value).toMatch(/^21,5/);
});
