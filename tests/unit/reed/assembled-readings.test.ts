import { describe, expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import { assembleReed } from '../../../src/reed/assemble.ts';

const reading = (fromTipMm: number, thicknessMm: number, repeat = 0, flag = 'ok', role = 'station') => ({
  ...{ blade: 'A', across: 0, fromTipMm, thicknessMm, repeat, flag, role },
});
const passOf = (readings: readonly object[], more: object = {}) =>
  ({ index: 0, overallLengthMm: 70, threadMm: 47, remedies: [], readings, ...more }) as unknown as Pass;
const assembled = (...passes: Pass[]) =>
  assembleReed({ reed: { label: 'invented', styleId: 'long-scrape' } as Reed, passes });

describe('repeats of a place', () => {
  it('are averaged, with their number and the weakest flag among them', () => {
    const pass = passOf([
      reading(5, 0.3),
      reading(5, 0.33, 1, 'doubtful'),
      reading(5, 0.36, 2),
      reading(10, 0.5),
      reading(10, 0.9, 0, 'ok', 'control'),
    ]);
    const [at5, at10, ...rest] = assembled(pass).passes[0]!.readings;
    expect(rest).toEqual([]);
    // (0.30 + 0.33 + 0.36) / 3
    expect(at5).toMatchObject({ fromTipMm: 5, repeats: 3 });
    expect(at5!.thicknessMm).toBeCloseTo(0.33, 12);
    const alone = assembled(passOf([reading(5, 0.3, 0, 'doubtful')])).passes[0]!.readings[0]!;
    expect(at5!.noiseFactor).toBe(alone.noiseFactor);
    expect(alone.noiseFactor).toBeGreaterThan(at10!.noiseFactor);
    expect(at10).toMatchObject({ thicknessMm: 0.5, repeats: 1, noiseFactor: 1 });
  });

  it('give the seating noise, pooled within places, from ten degrees of freedom on', () => {
    // Pairs 0.02 apart: the variance within each is 0.02^2 / 2, whatever lies between places.
    const pairs = (count: number) =>
      passOf(
        Array.from({ length: count }, (_, k) => [
          reading(k + 1, 0.3 + 0.01 * k),
          reading(k + 1, 0.32 + 0.01 * k, 1),
        ]).flat(),
      );
    const { seating } = assembled(pairs(10)).options;
    expect(seating).toMatchObject({ from: 'repeats' });
    expect(seating!.sdMm).toBeCloseTo(0.02 / Math.SQRT2, 9);
    expect(assembled(pairs(9)).options.seating).toBeUndefined();
  });
});

describe('lengths of a reed', () => {
  it('are as entered, or those before less the clip, and never grow', () => {
    const passes = [
      passOf([], { overallLengthMm: 70 }),
      passOf([], { index: 1, overallLengthMm: undefined, clipMm: 0.4 }),
      passOf([], { index: 2, overallLengthMm: 69.8 }),
      passOf([], { index: 3, overallLengthMm: 69 }),
    ];
    const lengths = assembled(...passes).passes.map(({ overallLengthMm }) => overallLengthMm);
    [70, 69.6, 69.6, 69].forEach((mm, k) => expect(lengths[k]).toBeCloseTo(mm, 12));
  });

  it('leave a blade from the tip to the thread, or to its last reading where that lies behind', () => {
    expect(assembled(passOf([reading(5, 0.3)])).passes[0]!.bladeLengthMm).toBeCloseTo(23, 12);
    expect(assembled(passOf([reading(24.5, 0.5)])).passes[0]!.bladeLengthMm).toBeCloseTo(24.5, 12);
  });
});
