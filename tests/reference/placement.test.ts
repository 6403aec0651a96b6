import { describe, expect, it } from 'vitest';
import { believableMap, believableOverMm } from '../../src/figures/believable-map.ts';
import { mapGrid } from '../../src/figures/surface-map.ts';
import { zoneArea } from '../../src/figures/zone-mean.ts';
import { rectangleZone } from '../../src/blade/zones.ts';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { familyReed, FAMILY_GAUGES, type FamilyReed } from '../generator/family-reed.ts';

// Reeds of several families, read by a dial in three full passes; every place read twice more, by simulation.
const ZONES_MM = { tip: [0.5, 3], ridge: [3, 6], heart: [6, 10], back: [10, 19] } as const;
const FAMILIES = ['place', 'spine', 'rails', 'thin', 'mixed', 'soft bark'] as const;
const reedsBy = (handMm: number) =>
  FAMILIES.map((family, k) =>
    familyReed({ family, gauge: 'dial', handMm, extent: 'full', seed: 610_000 + k, count: 3 }),
  );

/** 1.96 standard deviations of the difference of two readings of one place, over a zone. */
function repeatsDifferMm(reed: FamilyReed, from: number, to: number): number {
  let [squares, count] = [0, 0];
  for (let y = from; y < to; y += (to - from) / 15)
    for (let u = -0.9; u < 1; u += 0.2) {
      squares += (reed.readAgain('A', 0, y, u) - reed.readAgain('A', 0, y, u)) ** 2;
      count += 1;
    }
  return 1.96 * Math.sqrt(squares / count);
}

describe.each([0.05, 0.15, 0.25])('a hand that finds places to %d mm', (handMm) => {
  const reeds = reedsBy(handMm);
  const { stepMm } = FAMILY_GAUGES.dial;
  const models = reeds.map((reed) => fitReed(reed.passes, { stepMm }));

  it('is told by its passes', () => {
    for (const { noise } of models) expect(noise.placementFrom).toBe('passes');
    const mean = models.reduce((sum, { noise }) => sum + noise.alongMm, 0) / models.length;
    expect(Math.abs(mean - handMm)).toBeLessThan(0.025);
    for (const { noise } of models) expect(noise.acrossMm).toBeCloseTo(noise.alongMm / 3, 12);
  });

  it.each(Object.entries(ZONES_MM))(
    'has changes to believe as repeats differ, in the %s',
    (_, [from, to]) => {
      const ratios = models.map((model, k) => {
        const map = believableMap(model, 'A', 0, mapGrid(model.passes[0]!.bladeLengthMm, 61, 31));
        const area = zoneArea(rectangleZone('part', from, to), model.passes[0]!);
        return believableOverMm(map, area)! / repeatsDifferMm(reeds[k]!, from, to);
      });
      const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
      expect(Math.abs(mean - 1)).toBeLessThan(0.25);
    },
  );

  it('is as it was declared, where the maker declares it', () => {
    const { noise } = fitReed(reeds[0]!.passes, { stepMm, placementMm: 0.1 });
    expect(noise).toMatchObject({ alongMm: 0.1, placementFrom: 'declared' });
  });
});

it('one pass alone tells a sure hand from an unsure one, and few readings tell nothing', () => {
  const alone = (handMm: number) =>
    reedsBy(handMm).map(
      ({ passes }) => fitReed(passes.slice(0, 1), { stepMm: FAMILY_GAUGES.dial.stepMm }).noise,
    );
  const mean = (noises: ReturnType<typeof alone>) =>
    noises.reduce((sum, { alongMm }) => sum + alongMm, 0) / FAMILIES.length;
  const [sure, unsure] = [alone(0.05), alone(0.25)];
  for (const { placementFrom } of sure) expect(placementFrom).toBe('residuals');
  // Shape that the stations cannot follow counts as scatter, so that it errs on the unsure side.
  expect(mean(sure)).toBeLessThan(0.15);
  expect(mean(unsure)).toBeGreaterThan(mean(sure) * 1.5);
  const [first] = reedsBy(0.05)[0]!.passes;
  const few = { ...first!, readings: first!.readings.slice(0, 12) };
  expect(fitReed([few]).noise).toMatchObject({ alongMm: 0.15, placementFrom: 'usual' });
});
