import { describe, expect, it } from 'vitest';
import { fitReed, type FitOptions } from '../../../src/surface/fit-reed.ts';
import { normalPairs } from '../../../src/numerics/normal-draws.ts';
import { readSample } from '../../read-sample.ts';
import { seededRandom } from '../../seeded-random.ts';

// An invented reed on a dial; what one reading scatters by stands beside it.
const { passes, truth } = readSample('plain');
const trueMm = truth.reading_noise_mm;
const USUAL_MM = Math.hypot(0.004, 0.01 / Math.sqrt(12));
const noiseOf = (count: number, options: FitOptions = {}) => {
  const { noiseMm, noiseFrom } = fitReed(passes.slice(0, count), options);
  return { sdMm: noiseMm.A!, from: noiseFrom };
};

/** A blade with tip, ridge and heart, invented; mm. */
function caneMm({ fromTipMm, across }: { fromTipMm: number; across: number }): number {
  const x = fromTipMm - 4.7;
  return 0.28 + (0.17 * x) / Math.sqrt(1 + x * x) - 0.05 * across * across;
}

describe('the noise of one reading comes from', () => {
  it.each(['repeats', 'study'] as const)('%s, whatever the passes say', (from) => {
    expect(noiseOf(2, { seating: { sdMm: 0.0062, from } })).toEqual({ sdMm: 0.0062, from });
  });

  it('cane that did not change between passes, rather than from what the gauge declares', () => {
    const { sdMm, from } = noiseOf(2, { seating: { sdMm: 0.007, from: 'declared' } });
    expect(from).toBe('passes');
    expect(Math.abs(sdMm / trueMm - 1)).toBeLessThan(0.35);
  });

  it('what the gauge declares, where no two passes read the same cane', () => {
    const seating = { sdMm: 0.007, from: 'declared' } as const;
    expect(noiseOf(1, { seating })).toEqual(seating);
    // A pass in doubt says nothing of the gauge.
    expect(noiseOf(2, { seating, unsettled: [1] })).toEqual(seating);
  });

  it('what is usual for such a gauge, where nothing is declared and nothing contradicts it', () => {
    // Seating of 0.4 steps and rounding to one.
    expect(noiseOf(1)).toEqual({ sdMm: USUAL_MM, from: 'declared' });
  });

  it('what is usual, where too few readings show no scatter', () => {
    const few = [{ ...passes[0]!, readings: passes[0]!.readings.slice(0, 12) }];
    expect(fitReed(few).noiseFrom).toBe('declared');
  });

  it.each([1, 2, 3])(
    'the scatter about the surface last, where it contradicts what is usual (hand %i)',
    (seed) => {
      const [pass] = passes;
      const seating = 0.009;
      const scatter = normalPairs(seededRandom(seed), pass!.readings.length);
      const shaky = pass!.readings.map((reading, i) => ({
        ...reading,
        thicknessMm: Math.round(100 * (caneMm(reading) + seating * scatter[i]!)) / 100,
      }));
      const { noiseMm, noiseFrom } = fitReed([{ ...pass!, readings: shaky }]);
      expect(noiseFrom).toBe('residuals');
      expect(Math.abs(noiseMm.A! / Math.hypot(seating, 0.01 / Math.sqrt(12)) - 1)).toBeLessThan(0.35);
    },
  );
});
