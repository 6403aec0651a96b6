import { describe, expect, it } from 'vitest';
import { decideUnit, toMm } from '../../../src/exchange/csv/thickness-unit.ts';

const some = (count: number, value: number) => Array.from({ length: count }, () => value);

describe('the unit of thicknesses without a unit', () => {
  it('is millimetres where more than half are fractions up to 2', () => {
    expect(decideUnit([...some(11, 0.31), ...some(9, 31)])).toEqual({ unit: 'mm' });
    expect(decideUnit([...some(10, 0.31), ...some(10, 31)])).toEqual({ open: ['hundredths', 'thou'] });
    expect(decideUnit([2, 1.99, 1.99])).toEqual({ unit: 'mm' });
    expect(decideUnit([2.01, 2.01, 2.01])).toEqual({ open: ['hundredths', 'thou'] });
    expect(decideUnit([])).toEqual({ unit: 'mm' });
  });

  it('is hundredths where more than one in ten lies above 32, more than any scraped blade has thousandths of an inch', () => {
    expect(decideUnit([...some(9, 30), ...some(2, 33)])).toEqual({ unit: 'hundredths' });
    expect(decideUnit([...some(18, 30), ...some(2, 33)])).toEqual({ open: ['hundredths', 'thou'] });
    expect(decideUnit(some(20, 32))).toEqual({ open: ['hundredths', 'thou'] });
  });

  it('is asked for among all three where every number is a whole one up to 2', () => {
    expect(decideUnit([1, 2, 1])).toEqual({ open: ['mm', 'hundredths', 'thou'] });
    expect(decideUnit([1, 3, 1])).toEqual({ open: ['hundredths', 'thou'] });
  });

  it('is turned into mm: an inch is 25.4 mm', () => {
    expect(toMm(0.31, 'mm')).toBe(0.31);
    expect(toMm(31, 'hundredths')).toBe(0.31);
    expect(toMm(10, 'thou')).toBe(0.254);
  });
});
