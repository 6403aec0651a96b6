import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partReversal } from '../../../src/gauge/reversal.ts';
import {
  centred,
  dot,
  falseDiscoveryRates,
  rankChance,
  ranks,
} from '../../../src/learning/rank-correlation.ts';
import { meanInterval } from '../../../src/learning/mean-interval.ts';
import { seededRandom } from '../../../src/numerics/seeded-random.ts';
import { relations } from '../../../src/traits/relations.ts';
import { timeSpent } from '../../../src/traits/time-spent.ts';
import type { Pass } from '../../../shared/pass.ts';

describe('the reversal test', () => {
  it('parts what stays from what changes its sign', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        (hand, tilt) => {
          const noise = [0.001, -0.002, 0.001];
          const pairs = noise.map((e) => ({ usualMm: hand + tilt + e, turnedMm: hand - tilt + e }));
          const parted = partReversal(pairs);
          expect(parted.hand.valueMm).toBeCloseTo(hand, 12);
          expect(parted.tilt.valueMm).toBeCloseTo(tilt, 12);
        },
      ),
    );
  });

  it('tells neither from nothing when the readings scatter', () => {
    const pairs = [
      { usualMm: 0.02, turnedMm: -0.02 },
      { usualMm: -0.02, turnedMm: 0.02 },
      { usualMm: 0.01, turnedMm: 0 },
    ];
    expect(partReversal(pairs)).toMatchObject({ hand: { told: false }, tilt: { told: false } });
    expect(() => partReversal(pairs.slice(1))).toThrow('pairs: must be at least 3');
  });
});

describe('a mean with its interval', () => {
  it('is that of the t table', () => {
    // t 0.975 of 4 degrees of freedom is 2.7764 in every table.
    const { mean, u, interval } = meanInterval([1, 2, 3, 4, 5]);
    expect(mean).toBe(3);
    expect(u).toBeCloseTo(Math.sqrt(2.5 / 5), 12);
    expect((interval[1] - mean) / u).toBeCloseTo(2.7764, 4);
    expect(() => meanInterval([1])).toThrow('at least 2');
  });
});

const SHUFFLES = 8_000;

/** Share of drawn orders of b whose product with a is at least as large. */
function shuffledShare(a: readonly number[], b: readonly number[], random: () => number): number {
  const least = Math.abs(dot(a, b)) * (1 - 1e-12);
  const isAsLarge = () => {
    const order = b.map((value) => ({ value, at: random() })).sort((one, other) => one.at - other.at);
    return Math.abs(a.reduce((sum, value, i) => sum + value * order[i]!.value, 0)) >= least;
  };
  return Array.from({ length: SHUFFLES }, isAsLarge).filter(Boolean).length / SHUFFLES;
}

describe('the chance of a rank correlation', () => {
  it('agrees with shuffling, ties or none', () => {
    const random = seededRandom(4);
    for (const step of [0.01, 1]) {
      const x = Array.from({ length: 24 }, () => Math.round((random() * 5) / step) * step);
      const y = x.map((value) => Math.round((0.35 * value + random() * 5) / step) * step);
      const [a, b] = [x, y].map((values) => centred(ranks(values))) as [number[], number[]];
      const p = shuffledShare(a, b, random);
      // Three standard errors of the shuffles, and a tenth for the approximation.
      const error = 3 * Math.sqrt((p * (1 - p)) / SHUFFLES) + 0.1 * p;
      const rho = dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b));
      expect(Math.abs(rankChance(rho, x.length) - p)).toBeLessThan(error);
    }
  });

  it('agrees with cor.test of R 4.2.2, method "spearman", exact', () => {
    // Pairs without ties; the sum of squared differences of ranks, and the p-value to ten digits.
    const published = [
      [12, 182, 0.246255228],
      [12, 84, 0.01328611352],
      [18, 516, 0.05221897991],
      [18, 182, 4.966238397e-5],
      [24, 1208, 0.02017403803],
      [24, 362, 2.086975766e-6],
    ] as const;
    for (const [n, squares, p] of published) {
      // The normal tail inside R's series has six digits.
      expect(Math.abs(rankChance(1 - (6 * squares) / (n ** 3 - n), n) / p - 1)).toBeLessThan(2e-5);
    }
  });

  it('falls with the strength, far into the tail', () => {
    for (const n of [12, 40, 300]) {
      const chances = Array.from({ length: 19 }, (_, i) => rankChance(0.05 + i * 0.05, n));
      chances.slice(1).forEach((chance, i) => expect(chance).toBeLessThanOrEqual(chances[i]! + 1e-12));
    }
  });

  it('is certain for a perfect order, and one for none', () => {
    expect(rankChance(1, 20)).toBe(0);
    expect(rankChance(0, 20)).toBeCloseTo(1, 2);
  });
});

describe('what is said of relations', () => {
  const column = (name: string, values: readonly number[]) => ({ name, title: name, values });
  const random = seededRandom(9);
  const noise = () => Array.from({ length: 30 }, random);
  const x = noise();

  it('corrects within an outcome as Benjamini & Hochberg do, and for the number of outcomes', () => {
    const figures = [column('x', x), column('y', noise())];
    const outcomes = [column('like x', x), column('other', noise()), column('third', noise())];
    const [found] = relations([{ figures, outcomes }]);
    const of = (outcome: string) => found!.filter((one) => one.outcome.name === outcome);
    for (const { name } of outcomes) {
      const rates = falseDiscoveryRates(of(name).map(({ p }) => p));
      of(name).forEach(({ q }, i) => expect(q).toBeCloseTo(Math.min(1, 3 * rates[i]!), 12));
    }
    expect(of('like x').find(({ figure }) => figure.name === 'x')).toMatchObject({ said: true, q: 0 });
  });

  it('leaves out pairs that are not known, and what never changes', () => {
    const gaps = x.map((value, i) => (i < 19 ? NaN : value));
    const [found] = relations([
      {
        figures: [
          column('x', x),
          column(
            'same',
            x.map(() => 1),
          ),
        ],
        outcomes: [column('gaps', gaps), column('all', x)],
      },
    ]);
    // Eleven pairs are too few; a figure that never changes goes with nothing.
    expect(found!.map(({ figure, outcome, n }) => [figure.name, outcome.name, n])).toEqual([
      ['x', 'all', 30],
    ]);
  });
});

describe('time spent', () => {
  const pass = (reedId: string, own: Partial<Pass>) => ({ reedId, readings: [], ...own }) as unknown as Pass;
  const at = (...seconds: number[]) => seconds.map((second) => ({ seconds: second })) as Pass['readings'];

  it('takes the middle reed, and shares strokes out by place', () => {
    const places = (zone: string, strokes: number) => ({
      places: [{ zone, strokes, blade: 'both' as const, side: 'both' as const }],
    });
    const spent = timeSpent([
      pass('a', { takenAt: '2026-01-01T10:00:00Z', readings: at(0, 600), scrape: places('tip', 30) }),
      pass('a', { takenAt: '2026-01-05T10:00:00Z', readings: at(10, 310), scrape: places('windows', 10) }),
      pass('b', { takenAt: '2026-01-02T10:00:00Z' }),
    ]);
    expect(spent).toMatchObject({ reeds: 2, gaugeMin: 15, days: 4, passes: 1.5 });
    expect(spent.places).toEqual([
      { zone: 'tip', strokes: 30, share: 0.75 },
      { zone: 'windows', strokes: 10, share: 0.25 },
    ]);
  });

  it('shares the minutes with the knife out by strokes, among the reeds that have them', () => {
    const scrape = (minutes: number | undefined, ...strokes: number[]) => ({
      ...(minutes !== undefined && { minutes }),
      places: strokes.map((count, i) => ({
        zone: ['tip', 'windows'][i]!,
        strokes: count,
        blade: 'both' as const,
        side: 'both' as const,
      })),
    });
    const spent = timeSpent([
      pass('a', { scrape: scrape(20, 30, 10) }),
      pass('b', { scrape: scrape(10, 5, 5) }),
      pass('c', { scrape: scrape(undefined, 50) }),
    ]);
    expect(spent.knifeMin).toBe(15);
    expect(spent.places.map(({ zone, minutes }) => [zone, minutes])).toEqual([
      ['tip', 10],
      ['windows', 5],
    ]);
  });

  it('leaves out what was never written down', () => {
    expect(timeSpent([])).toEqual({ reeds: 0, places: [] });
  });
});
