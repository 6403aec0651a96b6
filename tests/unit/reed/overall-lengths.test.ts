import { describe, expect, it } from 'vitest';
import { knownOverallMm, overallLengths } from '../../../src/reed/overall-lengths.ts';

const remedies: [] = [];

describe('the overall length after a pass', () => {
  it('is what was entered, else the one before less the clip', () => {
    const passes = [
      { overallLengthMm: 70.9, remedies },
      { clipMm: 0.4, remedies },
      { remedies },
      { overallLengthMm: 70.1, clipMm: 0.3, remedies },
    ];
    const lengths = [70.9, 70.5, 70.5, 70.1];
    overallLengths(passes).forEach((length, i) => expect(length).toBeCloseTo(lengths[i]!, 9));
    passes.forEach((_, i) => expect(knownOverallMm(passes, i)).toBeCloseTo(lengths[i]!, 9));
  });

  it('is not known before any was entered, though figures assume one', () => {
    const passes = [{ remedies }, { overallLengthMm: 69.5, remedies }];
    expect(knownOverallMm(passes, 0)).toBeUndefined();
    expect(overallLengths(passes)[0]).toBe(70);
    expect(knownOverallMm(passes, 1)).toBe(69.5);
  });

  it('counts a clip that was found and accepted', () => {
    const clip = [{ kind: 'clip', clipMm: 0.2 } as never];
    expect(knownOverallMm([{ overallLengthMm: 70, remedies }, { remedies: clip }], 1)).toBeCloseTo(69.8, 9);
  });
});
