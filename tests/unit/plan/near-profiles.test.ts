import { describe, expect, it } from 'vitest';
import {
  nearestProfiles,
  profileDistance,
  profileOf,
  type Profile,
} from '../../../src/plan/near-profiles.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const NONE = { ysMm: [], thicknessMm: [] };
/** Read along the middle alone, from one distance to another, every 5 mm and at the end. */
const middle = (fromMm: number, toMm: number, mm: (y: number) => number): Profile => {
  const ysMm = [fromMm, ...[5, 10, 15].filter((y) => y > fromMm && y < toMm), toMm];
  return { lines: [{ ysMm, thicknessMm: ysMm.map(mm) }, NONE, NONE] };
};
const slope = (y: number) => 0.1 + 0.02 * y;

describe('the distance of two profiles', () => {
  it('is the root mean square over what both were read on, between readings by straight lines', () => {
    expect(profileDistance(middle(0, 12, slope), middle(0, 12, slope))).toBe(0);
    const thicker = middle(2, 20, (y) => slope(y) + 0.03);
    expect(profileDistance(middle(0, 12, slope), thicker)).toBeCloseTo(0.03, 12);
    // 0.01 a mm apart over 0, 0.5 ... 6 mm: the mean of y^2 over 13 places is 0.25 * 650 / 13 = 12.5.
    const steeper = middle(0, 6, (y) => slope(y) + 0.01 * y);
    expect(profileDistance(middle(0, 6, slope), steeper)).toBeCloseTo(0.01 * Math.sqrt(12.5), 12);
  });

  it('wants twelve places half a millimetre apart, of all lines together, and two readings on a line', () => {
    const [twelve, eleven] = [5.5, 5].map((toMm) => middle(0, toMm, slope));
    expect(profileDistance(twelve!, middle(0, 20, slope))).toBe(0);
    expect(profileDistance(eleven!, middle(0, 20, slope))).toBeUndefined();
    const both = { lines: [eleven!.lines[0]!, { ysMm: [0, 0.5], thicknessMm: [0.2, 0.2] }, NONE] };
    expect(profileDistance(both, both)).toBe(0);
    const single = { lines: [eleven!.lines[0]!, { ysMm: [0], thicknessMm: [0.2] }, NONE] };
    expect(profileDistance(single, single)).toBeUndefined();
  });

  it('brings the most alike first, those that can be told alone, and so many of them', () => {
    const others = [0.05, 0.01, 0.03].map((by) => ({
      reed: by,
      profile: middle(0, 12, (y) => slope(y) + by),
    }));
    const short = { reed: 0, profile: middle(0, 3, slope) };
    const nearest = nearestProfiles(middle(0, 12, slope), [short, ...others], 2);
    expect(nearest.map(({ reed }) => reed)).toEqual([0.01, 0.03]);
    expect(nearest[1]!.rmsMm).toBeCloseTo(0.03, 12);
  });
});

it('a profile is the mean of both blades and sides at each distance, in the middle, half way out, near the edge', () => {
  const reed = scenarioReed('K-117');
  const { readings } = reed.passes[0]!;
  const { lines } = profileOf(reed, 0);
  for (const [k, across] of [0, 0.4, 0.8].entries()) {
    const own = readings.filter((one) => one.fromTipMm === 5 && Math.abs(one.across) === across);
    expect(own).toHaveLength(across === 0 ? 2 : 4);
    const mean = own.reduce((sum, { thicknessMm = NaN }) => sum + thicknessMm, 0) / own.length;
    expect(lines[k]!.thicknessMm[lines[k]!.ysMm.indexOf(5)]).toBeCloseTo(mean, 12);
  }
  const distances = [...new Set(readings.map(({ fromTipMm }) => fromTipMm))].sort((a, b) => a - b);
  expect(lines[0]!.ysMm).toEqual(distances);
});

it('a reading counts for a line of a profile where it lies within 0.15 of it, on either side', () => {
  const readings = [0.14, 0.26, -0.54, 0.57, 0.66, -0.94].map((across, i) => ({
    ...{ blade: 'A', fromTipMm: i, across, thicknessMm: 0.4 },
  }));
  const assembled = { passes: [{ overallLengthMm: 70, readings }] };
  const { lines } = profileOf({ assembled } as unknown as Parameters<typeof profileOf>[0], 0);
  expect(lines.map(({ ysMm }) => ysMm)).toEqual([[0], [1, 2], [4, 5]]);
});
