import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spread } from '../../../components/map/spread.ts';

const positions = fc
  .array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 12 })
  .map((values) => values.sort((a, b) => a - b));

describe('spread', () => {
  it('leaves positions alone that are far enough apart', () => {
    expect(spread([0, 20, 45], 15)).toEqual([0, 20, 45]);
  });

  it('parts two close rows by the same amount each', () => {
    expect(spread([10, 20], 14)).toEqual([8, 22]);
  });

  it('keeps a distance and a least position, whatever it is given', () => {
    fc.assert(
      fc.property(positions, fc.double({ min: 1, max: 20, noNaN: true }), (wanted, gap) => {
        const found = spread(wanted, gap, 5);
        expect(found[0]).toBeGreaterThanOrEqual(5);
        for (let i = 1; i < found.length; i++) expect(found[i]! - found[i - 1]!).toBeGreaterThan(gap - 1e-9);
      }),
    );
  });

  it('moves no less than any other way of keeping the distance', () => {
    const cost = (wanted: number[], found: number[]) =>
      wanted.reduce((sum, position, i) => sum + (position - found[i]!) ** 2, 0);
    fc.assert(
      fc.property(positions, positions, (wanted, other) => {
        const rival = other.slice(0, wanted.length).map((position, i) => position + i * 6);
        fc.pre(rival.length === wanted.length);
        expect(cost(wanted, spread(wanted, 6))).toBeLessThanOrEqual(cost(wanted, rival) + 1e-9);
      }),
    );
  });
});
