import { describe, expect, it } from 'vitest';
import { lampSums } from '../../../src/answers/lamp-sums.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const m142 = scenarioReed('M-142');
const sums = lampSums(m142, 3);
const at = (fromTipMm: number, across: number) =>
  sums.find((one) => one.fromTipMm === fromTipMm && one.across === across)!;

describe('a reed held to the lamp', () => {
  it('adds what faces each other: A at a place and B at minus that', () => {
    // By hand from the readings at 10 mm: A 45 40 51 42 44, B 46 43 52 35 43 from left to right.
    const read = [45 + 43, 40 + 35, 51 + 52, 42 + 43, 44 + 46];
    [-0.8, -0.4, 0, 0.4, 0.8].forEach((across, i) =>
      expect(Math.abs(100 * at(10, across).sum.valueMm - read[i]!)).toBeLessThan(2.5),
    );
  });

  it('marks the side that is surely thinner, and none on the centre line', () => {
    expect(at(10, -0.4).isThinner).toBe(true);
    expect(at(10, 0.4).isThinner).toBe(false);
    expect(sums.filter(({ isThinner }) => isThinner)).toHaveLength(1);
    expect(at(10, 0).sides).toBeUndefined();
    // 75 less 85.
    expect(Math.abs(100 * at(10, -0.4).sides!.valueMm + 10)).toBeLessThan(2.5);
    expect(at(10, 0.4).sides!.valueMm).toBeCloseTo(-at(10, -0.4).sides!.valueMm, 12);
  });

  it('has nothing to say of one blade', () => {
    const alone = { ...m142, model: { ...m142.model!, blades: { A: m142.model!.blades.A! } } };
    expect(lampSums(alone, 3)).toEqual([]);
  });
});
