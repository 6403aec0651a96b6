import { describe, expect, it } from 'vitest';
import { oddInFamily } from '../../../src/faults/first-of-family.ts';
import type { FitReading } from '../../../src/surface/reed-model.ts';
import { knownFamily } from '../family/known-family.ts';

const HEART = [
  { fromTipMm: 7, across: 0 },
  { fromTipMm: 8, across: 0.4 },
  { fromTipMm: 9, across: -0.4 },
];
const FAMILY = knownFamily(HEART, { meanMm: 0.5, commonMm2: 4e-4, ownMm2: 1e-4 });
const NOISE = { seatingMm: 0.005 };

const reads = (...thicknessesMm: number[]) => ({
  readings: HEART.map((place, k): FitReading => ({
    ...{ blade: 'A', ...place, thicknessMm: thicknessesMm[k]!, repeats: 1, noiseFactor: 1 },
  })),
});
const oddOf = (...thicknessesMm: number[]) => oddInFamily(reads(...thicknessesMm), NOISE, 0.01, [FAMILY]);

describe('a first pass held against the maker’s other reeds', () => {
  it('asks about the one reading that they and the others do not lead to expect, and tells what it may have been', () => {
    const [odd, ...more] = oddOf(0.5, 0.5, 0.6)!;
    expect(more).toEqual([]);
    expect(odd!.reading.fromTipMm).toBe(9);
    // The two others read what is usual, and so is the third expected; a tenth misread on the dial leads there.
    expect(odd!.expectedMm).toBeCloseTo(0.5, 6);
    expect(odd!.meantMm).toBeCloseTo(0.5, 6);
    // C + D + s2 = 5.25, C = 4 e-4 (a zero is little beside it): 5.25 - 32 / 9.25 = 1.79 e-4 is its variance.
    expect(odd!.sds).toBeCloseTo(0.1 / Math.sqrt(1.79e-4), 0);
  });

  it('asks nothing where all lie as reeds of the family do, nor within the doubt of what is expected', () => {
    expect(oddOf(0.52, 0.515, 0.51)).toEqual([]);
    expect(oddOf(0.5, 0.5, 0.55)).toEqual([]);
  });

  it('leaves a reed that is unlike the family, or has none, to its own neighbours', () => {
    expect(oddOf(0.62, 0.62, 0.62)).toBeUndefined();
    expect(oddInFamily(reads(0.5, 0.5, 0.6), NOISE, 0.01, [])).toBeUndefined();
  });
});
