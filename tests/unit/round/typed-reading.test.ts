import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countFor, type GaugeCount } from '../../../src/round/gauge-count.ts';
import { readingText } from '../../../src/round/reading-text.ts';
import { typedReading } from '../../../src/round/typed-reading.ts';

const mm = (text: string, count: GaugeCount) => {
  const typed = typedReading(text, count);
  return typed.kind === 'reading' ? typed.thicknessMm : typed.kind;
};

describe('a reading typed for a gauge that counts hundredths', () => {
  it.each([
    ['46', 0.46],
    ['9', 0.09],
    ['57', 0.57],
    ['.47', 0.47],
    ['0.47', 0.47],
    ['0,47', 0.47],
    [',47', 0.47],
    ['0.467', 0.467],
    ['46.5', 0.465],
    ['+0.46', 0.46],
    [' 0.46 mm', 0.46],
    ['046', 0.46],
    ['1.2mm', 1.2],
    ['0.018"', 0.018 * 25.4],
    ['0.018 in', 0.018 * 25.4],
  ])('takes %s as %d mm', (text, expected) => {
    expect(mm(text, 'hundredths')).toBeCloseTo(expected, 12);
  });

  it.each(['467', '134', '1.34', '1,5'])('refuses to guess what %s means', (text) => {
    const typed = typedReading(text, 'hundredths');
    expect(typed.kind).toBe('unclear');
  });

  it('names both meanings of a number that could be thousandths, and offers the other count', () => {
    expect(typedReading('467', 'hundredths')).toEqual({
      kind: 'unclear',
      why: '467 may be 0.467 mm or 4.67 mm. Type it with its point, or say that the gauge counts thousandths.',
      asCount: 'thousandths',
    });
    const said = (text: string) => typedReading(text, 'hundredths', 'comma');
    expect(said('467')).toMatchObject({
      why: expect.stringMatching(/^467 may be 0,467 mm or 4,67 mm. .* its comma/),
    });
    expect(said('x')).toMatchObject({ why: '“x” is not a number. Type digits, such as 46 or 0,46.' });
  });

  it.each(['0', '0.0', '-3', '\u22120.02', '.', 'abc', '4..6', '1.234,5', '4 6 x', '9999', '--'])(
    'explains why %s is no reading',
    (text) => {
      const typed = typedReading(text, 'hundredths');
      expect(typed.kind === 'unclear' && typed.why).toMatch(/\.$/);
    },
  );

  it('takes nothing for nothing', () => {
    expect(typedReading('  ', 'hundredths')).toEqual({ kind: 'blank' });
  });
});

it('takes whole numbers as thousandths or thou where the gauge counts so', () => {
  expect(mm('467', 'thousandths')).toBe(0.467);
  expect(mm('47', 'thousandths')).toBe(0.047);
  expect(mm('0.467', 'thousandths')).toBe(0.467);
  expect(mm('46.7', 'thousandths')).toBe('unclear');
  // One inch is 25.4 mm by definition.
  expect(mm('18', 'thou')).toBeCloseTo(0.4572, 12);
  expect(mm('17.5', 'thou')).toBeCloseTo(0.4445, 12);
  expect(mm('.018', 'thou')).toBeCloseTo(0.4572, 12);
  expect(mm('467', 'thou')).toBe('unclear');
});

it('prints a reading so that typing it again gives the same reading', () => {
  const count = fc.constantFrom<GaugeCount>('hundredths', 'thousandths');
  fc.assert(
    fc.property(
      count,
      fc.integer({ min: 1, max: 99 }),
      fc.constantFrom('point' as const, 'comma' as const),
      (kind, steps, mark) => {
        const thicknessMm = kind === 'hundredths' ? steps / 100 : steps / 1000;
        expect(mm(readingText(thicknessMm, { count: kind, decimal: mark }), kind)).toBe(thicknessMm);
      },
    ),
  );
});

it('never makes a reading outside the bounds, whatever is typed', () => {
  const key = fc.constantFrom(...'0123456789.,+-\u2212 mi"n*e');
  const text = fc.array(key, { maxLength: 8 }).map((keys) => keys.join(''));
  fc.assert(
    fc.property(text, fc.constantFrom<GaugeCount>('hundredths', 'thousandths', 'thou'), (typed, count) => {
      const heard = typedReading(typed, count);
      if (heard.kind === 'reading') expect(heard.thicknessMm > 0 && heard.thicknessMm <= 2).toBe(true);
    }),
  );
});

it('chooses the count from the smallest step and the unit', () => {
  expect(countFor(0.01, 'hundredths')).toBe('hundredths');
  expect(countFor(0.001, 'mm')).toBe('thousandths');
  expect(countFor(0.01, 'thou')).toBe('thou');
});
