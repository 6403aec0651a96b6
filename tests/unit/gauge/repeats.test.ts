import { describe, expect, it } from 'vitest';
import { meanOfRepeats } from '../../../src/gauge/repeats.ts';

describe('repeats of one place', () => {
  it('are averaged, and the scatter of the mean falls with the root of their number', () => {
    const { valueMm, uMm, count } = meanOfRepeats([0.4, 0.42, 0.44, 0.46], 0.01);
    expect(valueMm).toBeCloseTo(0.43, 12);
    expect(uMm).toBeCloseTo(0.005, 12);
    expect(count).toBe(4);
  });
});
