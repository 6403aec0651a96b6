import { describe, expect, it } from 'vitest';
import { fitReed } from '../../src/surface/fit-reed.ts';
import { familyReed, FAMILY_GAUGES } from '../generator/family-reed.ts';
import { believedOf, meanBelieved } from '../study/believable-study.ts';

// Reeds of several families, read in three full passes; every place read twice more, by simulation.
const FAMILIES = ['place', 'spine', 'rails', 'thin'] as const;
const settingsOf = (gauge: keyof typeof FAMILY_GAUGES, handMm: number, count = 3) =>
  FAMILIES.map((family, k) => ({
    ...{ family, gauge, handMm, count, seed: 610_000 + k },
    extent: 'full' as const,
  }));

const HANDS_MM = [0.05, 0.15, 0.25];
const CELLS = HANDS_MM.flatMap((handMm) => [['dial', handMm] as const, ['fine', handMm] as const]);

describe.each(CELLS)('by a %s, a hand that finds places to %d mm', (gauge, handMm) => {
  const told = settingsOf(gauge, handMm).map((settings) => believedOf(settings));
  const { ratios, alongMm } = meanBelieved(told);

  it('is told by its passes', () => {
    for (const { noise } of told) expect(noise.placementFrom).toBe('passes');
    expect(Math.abs(alongMm - handMm)).toBeLessThan(0.025);
    for (const { noise } of told) expect(noise.acrossMm).toBeCloseTo(noise.alongMm / 3, 12);
  });

  it.each(Object.entries(ratios))('has changes to believe as repeats differ, in the %s', (_, ratio) => {
    expect(Math.abs(ratio - 1)).toBeLessThan(0.25);
  });
});

describe('a hand', () => {
  it('is as it was declared, where the maker declares it', () => {
    const [settings] = settingsOf('dial', 0.15);
    const { stepMm } = FAMILY_GAUGES.dial;
    const { noise } = fitReed(familyReed(settings!).passes, { stepMm, placementMm: 0.1 });
    expect(noise).toMatchObject({ alongMm: 0.1, placementFrom: 'declared' });
  });
});

it('one pass alone tells a sure hand from an unsure one, and few readings tell nothing', () => {
  const alone = (handMm: number) => {
    const told = settingsOf('dial', handMm, 1).map((settings) => believedOf(settings));
    for (const { noise } of told) expect(noise.placementFrom).toBe('residuals');
    return meanBelieved(told);
  };
  const [sure, unsure] = [alone(0.05), alone(0.25)];
  // Shape that the stations cannot follow counts as scatter, so that it errs on the unsure side.
  expect(sure.alongMm).toBeLessThan(0.1);
  expect(Math.abs(unsure.alongMm - 0.25)).toBeLessThan(0.06);
  // What the hand scatters is not taken for the gauge's.
  expect(unsure.seating).toBeLessThan(1.25);
  const [first] = familyReed(settingsOf('dial', 0.05, 1)[0]!).passes;
  const few = { ...first!, readings: first!.readings.slice(0, 12) };
  expect(fitReed([few]).noise).toMatchObject({ alongMm: 0.15, placementFrom: 'usual' });
});
