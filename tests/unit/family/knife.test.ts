import { mean } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { knifeOf, type ScrapedBetween } from '../../../src/family/knife.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { inKnifesWay } from '../../../src/surface/learned-removal.ts';
import { FIRST_REMOVAL_SD_MM, firstVariances, removalSpace } from '../../../src/surface/removal-space.ts';
import { priorOf } from '../../../src/family/predictive.ts';
import { studyKnife } from '../../study/knife-study.ts';
import { knownFamily } from './known-family.ts';

const HEART = [
  { fromTipMm: 7, across: 0 },
  { fromTipMm: 8, across: 0.4 },
  { fromTipMm: 9, across: -0.4 },
];
const FAMILY = knownFamily(HEART, { meanMm: 0.5, commonMm2: 4e-4, ownMm2: 1e-4 });
const readAt = (place: (typeof HEART)[number], thicknessMm: number) => ({
  readings: [{ blade: 'A' as const, ...place, thicknessMm, repeats: 1, noiseFactor: 1 }],
  ...{ seatingMm: 0.005, zeroMm: 0 },
});
const scraped = (times: number, tookMm: number): ScrapedBetween[] =>
  Array.from({ length: times }, () => ({
    before: readAt(HEART[0]!, 0.5),
    after: readAt(HEART[0]!, 0.5 - tookMm),
  }));

describe('where the knife usually goes', () => {
  it('is worked by hand for ten scrapings of 0.03 mm at one place', () => {
    // Noise of a difference: 2 x 0.005^2 + (0.005 x 0.5)^2 = 56.25e-6, of 0.0092^2 = 84.64e-6 the share 0.66458.
    const ratio = (900 - 56.25) / 84.64;
    const weight = 10 / 1.66458 ** 2;
    const anywhere = (weight * ratio + 20) / (weight + 20);
    const at = (share: number) => (share * weight * ratio + 8 * anywhere) / (share * weight + 8);
    const knife = knifeOf(scraped(10, 0.03), FAMILY)!;
    expect(anywhere).toBeCloseTo(2.371, 3);
    expect(knife[0]).toBeCloseTo(at(1), 4);
    expect(knife[1]).toBeCloseTo(at(Math.exp(-((1 / 1.2) ** 2 + 1) / 2)), 4);
    expect(knife[2]).toBeCloseTo(at(Math.exp(-((2 / 1.2) ** 2 + 1) / 2)), 4);
  });

  it('is not learned from fewer than eight scrapings, nor from such as took no more than is usual', () => {
    expect(knifeOf(scraped(7, 0.03), FAMILY)).toBeUndefined();
    expect(knifeOf(scraped(30, 0.005), FAMILY)).toBeUndefined();
  });

  it('makes nothing surer, and stands where stations speak', () => {
    const space = removalSpace(40, 70);
    const widened = inKnifesWay(space, { stations: HEART, knife: Float64Array.of(4, 4, 4) }, 70);
    const parts = firstVariances(widened).map((variance) => variance / FIRST_REMOVAL_SD_MM ** 2);
    expect(Math.min(...parts)).toBeGreaterThanOrEqual(1);
    // 7 mm from the tip, in the middle: three stations against the usual, 3 standard deviations away.
    expect(Math.max(...parts)).toBeGreaterThan(3.9);
    // Near the cork no station speaks.
    expect(parts[0]).toBeCloseTo(1, 6);
    expect(inKnifesWay(space, { stations: HEART }, 70)).toBe(space);
  });

  it('leaves a fit as it was where it takes what is usual', () => {
    const pass = (thicknessMm: number) => ({
      ...{ overallLengthMm: 70, bladeLengthMm: 23, halfWidthMm: () => 3 },
      readings: HEART.map((place) => readAt(place, thicknessMm).readings[0]!),
    });
    const passes = [
      { index: 0, ...pass(0.5) },
      { index: 1, ...pass(0.47) },
    ];
    const fitted = (knife?: Float64Array) =>
      fitReed(passes, { stepMm: 0.01, learned: priorOf(FAMILY, knife) });
    const usual = fitted();
    expect(fitted(new Float64Array(3).fill(1)).blades.A!.mean).toEqual(usual.blades.A!.mean);
    expect(fitted(new Float64Array(3).fill(4)).blades.A!.mean).not.toEqual(usual.blades.A!.mean);
  });
});

// The long form is npm run study:knife; what it found stands in src/family/README.md.
describe('what few readings say of a scraping', () => {
  it('covers more of what a knife took that mostly goes to the tip, and is less sure, once that is known', () => {
    const { known, unknown, taught } = studyKnife('tip', 730001, 2, 12);
    expect(taught).toBe(2);
    const zonesOf = (tallies: typeof known) => {
      const zones = ['zone tip', 'zone blend'].map((name) => tallies.get(name)!);
      const halves = zones.flatMap(({ halvesMm }) => halvesMm);
      const within = zones.reduce((sum, tally) => sum + tally.within, 0);
      return { covered: within / halves.length, halfMm: mean(halves)! };
    };
    const [told, untold] = [zonesOf(known), zonesOf(unknown)];
    expect(told.covered).toBeGreaterThan(untold.covered);
    expect(told.covered).toBeGreaterThan(0.85);
    expect(told.halfMm).toBeGreaterThan(untold.halfMm);
  });
});
