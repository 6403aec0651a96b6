import { describe, expect, it } from 'vitest';
import { estimate, estimateJointly, pointFunctional } from '../../../src/figures/functional.ts';
import { basePrior } from '../../../src/surface/base-prior.ts';
import { baseRow, baseSpace } from '../../../src/surface/base-surface.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { learnedBasePrior, ofOneBlade, type LearnedPrior } from '../../../src/surface/learned-prior.ts';
import type { FitPass, FitReading } from '../../../src/surface/reed-model.ts';
import { sparseBilinear, sparseDot } from '../../../src/numerics/sparse-row.ts';

const LENGTH_MM = 70;
const PLACES = [1, 3, 5, 8, 12, 16].flatMap((fromTipMm) =>
  [-0.6, 0, 0.6].map((across) => ({ fromTipMm, across })),
);
const FRAME = { logPrecisions: [6, 1.6], rise: 0.12, ridgeFromTipMm: 4.5 } as const;
const SPACE = baseSpace({ ridgeMm: LENGTH_MM - 4.5, widthMm: 1.6, strength: 6 }, 47, LENGTH_MM);

/** C and D at every place alike, or each place by itself. */
function learnedOf(common: number, own: Float64Array, meanMm = 0.5, places = PLACES): LearnedPrior {
  return {
    ...{ stations: places, ...FRAME, placementMm: 0.1, reeds: 20 },
    meanMm: new Float64Array(places.length).fill(meanMm),
    common: new Float64Array(places.length).fill(Math.sqrt(common)),
    own,
  };
}

const diagonal = (value: number, m = PLACES.length) =>
  Float64Array.from({ length: m * m }, (_, k) => (k % (m + 1) === 0 ? value : 0));

describe('a learned prior', () => {
  it('is the usual prior where the stations are as the usual prior has them', () => {
    const usual = basePrior(SPACE, FRAME, FRAME.rise);
    const rows = PLACES.map(({ fromTipMm, across }) => baseRow(SPACE, LENGTH_MM - fromTipMm, across));
    const n = Math.sqrt(usual.covariance.length);
    const own = Float64Array.from(
      rows.flatMap((a) => rows.map((b) => sparseBilinear(a, usual.covariance, n, b))),
    );
    const { covariance, learned } = learnedBasePrior(SPACE, learnedOf(0, own, 0.3), LENGTH_MM);
    const largest = Math.max(...usual.covariance);
    // Of what no station shows, 1.35 times as much is left behind 8 mm: between stations there, and nowhere else.
    const between = baseRow(SPACE, LENGTH_MM - 14, 0.3);
    const front = baseRow(SPACE, LENGTH_MM - 2, 0.3);
    const variance = (of: Float64Array, row: typeof front) => sparseBilinear(row, of, n, row);
    for (const row of [...rows, front])
      expect(Math.abs(variance(covariance, row) - variance(usual.covariance, row))).toBeLessThan(
        1e-4 * largest,
      );
    expect(variance(covariance, between)).toBeGreaterThan(variance(usual.covariance, between));
    learned!.offsetMm.forEach((value) => expect(Math.abs(value)).toBeLessThan(1e-9));
  });

  it('says at its stations what was learned, in mean and in variance', () => {
    const prior = learnedBasePrior(SPACE, learnedOf(4e-4, diagonal(1e-4)), LENGTH_MM);
    const whole = ofOneBlade(prior);
    const n = Math.sqrt(whole.covariance.length);
    for (const { fromTipMm, across } of PLACES) {
      const row = baseRow(SPACE, LENGTH_MM - fromTipMm, across);
      expect(0.3 + sparseDot(row, whole.learned!.offsetMm)).toBeCloseTo(0.5, 6);
      // What is left behind 8 mm reaches a little over that line.
      expect(sparseBilinear(row, whole.covariance, n, row) / 5e-4).toBeCloseTo(1, fromTipMm < 5 ? 4 : 1);
    }
  });
});

const reading = (blade: 'A' | 'B', k: number, thicknessMm: number, noiseFactor = 1): FitReading => ({
  ...{ blade, ...PLACES[k]!, thicknessMm, repeats: 1, noiseFactor },
});
const passOf = (readings: FitReading[], index = 0): FitPass => ({
  ...{ index, overallLengthMm: LENGTH_MM, bladeLengthMm: 23, halfWidthMm: () => 3.2, readings },
});
const EXACT = {
  seating: { sdMm: 0.005, from: 'study' },
  placementMm: 0,
  shared: { zeroMm: 0, swelling: 0, lengthMm: 0 },
} as const;

describe('a fit with a learned prior', () => {
  it('tells of one blade what a reading of the other leads to expect, as worked by hand', () => {
    // C = 4e-4, D = 1e-4, s2 = 0.25e-4. B is read so badly that it says nothing.
    const passes = [passOf([reading('A', 4, 0.52), reading('B', 4, 0.3, 1e6)])];
    const model = fitReed(passes, { ...EXACT, learned: learnedOf(4e-4, diagonal(1e-4)) });
    const at = (blade: 'A' | 'B') =>
      estimate(model, pointFunctional(model, { blade, pass: 0, ...PLACES[4]! }));
    expect(at('B').valueMm).toBeCloseTo(0.5 + (4 / 5.25) * 0.02, 5);
    expect(at('B').uMm ** 2 / (5e-4 - (16 / 5.25) * 1e-4)).toBeCloseTo(1, 3);
    expect(at('A').valueMm).toBeCloseTo(0.5 + (5 / 5.25) * 0.02, 5);
    expect(at('A').uMm ** 2 / ((5 * 0.25) / 5.25e4)).toBeCloseTo(1, 3);
  });

  it('gives a figure the same value and doubt by the last state, by the way back and through the steps', () => {
    const values = [0.51, 0.5, 0.49, 0.52];
    const passes = [0, 1, 2].map((index) =>
      passOf(
        values.flatMap((mm, k) => [
          reading('A', 3 * k + 2, mm - 0.004 * index),
          reading('B', 3 * k + 1, mm + 0.002 - 0.002 * index),
        ]),
        index,
      ),
    );
    const model = fitReed(passes, { learned: learnedOf(4e-4, diagonal(1e-4)) });
    const points = [0, 1, 2].map((pass) => pointFunctional(model, { blade: 'A', pass, ...PLACES[7]! }));
    const { valuesMm, covariance } = estimateJointly(model, points);
    points.forEach((point, k) => {
      const single = estimate(model, point);
      expect(valuesMm[k]).toBeCloseTo(single.valueMm, 8);
      expect(Math.sqrt(covariance[k * 4]!) / single.uMm).toBeCloseTo(1, 6);
    });
  });
});
