import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oddAtEnd, oddness, oddSentence, standsIn } from '../../../src/round/oddness.ts';
import { station } from './acts.ts';

const HEART = { valueMm: 0.46, sdMm: 0.01 };

describe('an odd reading', () => {
  it('lies more than three standard deviations from what the surface expects', () => {
    expect(oddness(0.48, HEART, 'hundredths')).toBeUndefined();
    expect(oddness(0.49, HEART, 'hundredths')).toBeUndefined();
    expect(oddness(0.5, { ...HEART, lastTimeMm: 0.45 }, 'hundredths')).toMatchObject({ lastTimeMm: 0.45 });
  });

  it('is named with the range, last time and the likeliest slip', () => {
    const odd = oddness(0.34, { ...HEART, lastTimeMm: 0.45 }, 'hundredths')!;
    expect(oddSentence(station('B', 10, 0.4), odd, { count: 'hundredths', decimal: 'point' })).toBe(
      'Odd for B, 10\u00a0mm, right: 44 to 48 was expected, 45 last time. It may be 44 read a tenth of a millimetre off the dial. It is kept. Read again, or go on.',
    );
  });

  it('is written with the maker’s decimal sign, and in the unit of what stands beside it', () => {
    const odd = oddness(0.345, { ...HEART, lastTimeMm: 0.455 }, 'hundredths')!;
    const said = (unit?: 'mm') =>
      oddAtEnd(station('B', 0.5, 0.4), 0.345, odd, {
        count: 'hundredths',
        decimal: 'comma',
        ...(unit && { unit }),
      });
    expect(said()).toBe('34,5 at B, 0,5\u00a0mm, right: 44 to 48 was expected, 45,5 last time.');
    expect(said('mm')).toBe('0,345 at B, 0,5\u00a0mm, right: 0,44 to 0,48 was expected, 0,455 last time.');
  });

  it.each([
    [0.53, 0.35, 'with its digits turned'],
    [0.36, 0.46, 'read a tenth of a millimetre off the dial'],
    [1.35, 0.35, 'read a full turn of the dial too high'],
    [0.046, 0.46, 'with its decimal sign in another place'],
    [0.15, 0.45, 'with the key beside it struck'],
  ])('%d mm where %d mm was meant is recognised: %s', (typedMm, meantMm, how) => {
    expect(oddness(typedMm, { valueMm: meantMm, sdMm: 0.006 }, 'hundredths')?.slip).toEqual({
      thicknessMm: meantMm,
      how,
    });
  });

  it('without a slip that explains it names none', () => {
    const odd = oddness(0.35, { valueMm: 0.425, sdMm: 0.01 }, 'hundredths')!;
    expect(odd.slip).toBeUndefined();
  });

  it('recognises every turned pair of digits that shows', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), (tens, ones) => {
        const meantMm = (10 * tens + ones) / 100;
        const typedMm = (10 * ones + tens) / 100;
        const odd = oddness(typedMm, { valueMm: meantMm, sdMm: 0.005 }, 'hundredths');
        if (Math.abs(tens - ones) > 1) expect(odd?.slip?.how).toBe('with its digits turned');
      }),
    );
  });
});

it('lets a second reading stand in for an odd one unless it confirms it', () => {
  expect(standsIn({ thicknessMm: 0.35, isOdd: true }, 0.43)).toBe(true);
  expect(standsIn({ thicknessMm: 0.35, isOdd: true }, 0.36)).toBe(false);
  expect(standsIn({ thicknessMm: 0.35, isOdd: false }, 0.43)).toBe(false);
});
