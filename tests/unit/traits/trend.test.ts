import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../src/numerics/seeded-random.ts';
import { groupedQuantile, trendOf } from '../../../src/traits/trend.ts';

describe('the middle of steps', () => {
  it('is the median of grouped data', () => {
    // By hand: class of the step less a half, and so far into it as the half lies beyond those below.
    expect(groupedQuantile([3, 3, 3, 3], 0.5)).toBe(3);
    expect(groupedQuantile([1, 2, 2, 3, 3, 3, 3, 4, 4, 5], 0.5)).toBeCloseTo(2.5 + 2 / 4, 12);
    expect(groupedQuantile([2, 2, 2, 3], 0.5)).toBeCloseTo(1.5 + 2 / 3, 12);
  });

  it('lies half way where as many are below a gap as above it', () => {
    expect(groupedQuantile([2, 2, 4, 4], 0.5)).toBe(3);
  });

  it('ends half a step beyond the outermost', () => {
    expect([groupedQuantile([2, 3], 0), groupedQuantile([2, 3], 1)]).toEqual([1.5, 3.5]);
  });
});

describe('the trend of trials along a figure', () => {
  const flat = Array.from({ length: 30 }, (_, k) => ({ x: k, y: 3 }));

  it('stands in the nearest third of the reeds and not beyond its outermost middles', () => {
    const places = trendOf(flat);
    expect([places[0]!.at, places.at(-1)!.at]).toEqual([5, 25]);
    // Ten reeds of one step: shares 0.5 -+ 1.96 / (2 sqrt 10) of it.
    for (const { low, middle, high } of places) {
      expect(middle).toBe(3);
      expect(high - 3).toBeCloseTo(1.959964 / 2 / Math.sqrt(10), 12);
      expect(3 - low).toBeCloseTo(high - 3, 12);
    }
  });

  it('is none for few reeds', () => {
    expect(trendOf(flat.slice(0, 23))).toEqual([]);
  });

  it('rises where trials rise', () => {
    const places = trendOf(Array.from({ length: 60 }, (_, k) => ({ x: k, y: 1 + Math.floor(k / 15) })));
    expect(places.at(-1)!.low).toBeGreaterThan(places[0]!.high);
  });

  it('holds the middle of the maker’s trials at least 95 times in 100, and not always', () => {
    // Steps 1 to 5 with shares 0.1, 0.2, 0.4, 0.2, 0.1, the same all along: their grouped median is 3.
    const random = seededRandom(11);
    const step = () => {
      const u = random();
      return [0.1, 0.3, 0.7, 0.9, 1].findIndex((share) => u < share) + 1;
    };
    const runs = 2000;
    let held = 0;
    for (let run = 0; run < runs; run++) {
      const [place] = trendOf(Array.from({ length: 90 }, (_, k) => ({ x: k, y: step() })));
      if (place!.low <= 3 && place!.high >= 3) held++;
    }
    // Spread evenly within its step the middle scatters less than ranks do: by the delta method on the shares by a factor
    // of sqrt(0.9375 / 1.5625) here, so that 1.96 is 2.53 of its standard errors, 98.9 %; 2,000 draws, two standard errors.
    expect(Math.abs(held / runs - 0.989)).toBeLessThan(0.006);
  });
});
