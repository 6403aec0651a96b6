import { describe, expect, it } from 'vitest';
import { meanInterval } from '../../../src/learning/mean-interval.ts';
import { controlChart } from '../../../src/learning/control-chart.ts';
import { principalComponents } from '../../../src/learning/principal-components.ts';
import { falseDiscoveryRates, rankChance, rankInterval } from '../../../src/learning/rank-correlation.ts';
import { survivalCurve, survivingAt } from '../../../src/learning/survival.ts';

it('gives a mean of four its Student interval', () => {
  // 1 to 4: variance 5 / 3; t of 3 degrees of freedom is 3.182446, any table.
  const { mean, u, interval, n } = meanInterval([1, 2, 3, 4]);
  expect([mean, n]).toEqual([2.5, 4]);
  expect(u).toBeCloseTo(Math.sqrt(5 / 12), 12);
  expect(interval[0]).toBeCloseTo(2.5 - 2.05426, 5);
  expect(interval[1]).toBeCloseTo(2.5 + 2.05426, 5);
  expect(() => meanInterval([1])).toThrow('at least 2, got 1');
});

it('gives a rank correlation the interval of Bonett & Wright 2000', () => {
  // 0.5 of ten pairs: atanh 0.549306 -+ 1.959964 sqrt(1.125 / 7), by hand.
  const [low, high] = rankInterval(0.5, 10);
  expect(low).toBeCloseTo(-0.23212, 4);
  expect(high).toBeCloseTo(0.87048, 4);
  expect(rankInterval(-0.5, 10)[0]).toBeCloseTo(-high, 12);
});

it('adjusts two chances for each other', () => {
  // 0.01 of two is 0.02; 0.03 stays; the smaller never above the larger.
  const [a, b, c] = falseDiscoveryRates([0.03, 0.01, 0.04]);
  expect([a, b, c]).toEqual([expect.closeTo(0.04, 12), expect.closeTo(0.03, 12), expect.closeTo(0.04, 12)]);
});

describe('the chance of a rank correlation', () => {
  /** Shares of all orders of n ranks with a sum of squared differences this far from the mean or farther. */
  function exactChances(n: number): Map<number, number> {
    const counts = new Map<number, number>();
    const order = Array.from({ length: n }, (_, i) => i);
    const walk = (k: number, squares: number) => {
      if (k === n) counts.set(squares, (counts.get(squares) ?? 0) + 1);
      for (let i = k; i < n; i++) {
        [order[k], order[i]] = [order[i]!, order[k]!];
        walk(k + 1, squares + (order[k]! - k) ** 2);
        [order[k], order[i]] = [order[i]!, order[k]!];
      }
    };
    walk(0, 0);
    const total = [...counts.values()].reduce((sum, count) => sum + count, 0);
    const middle = (n ** 3 - n) / 6;
    return new Map(
      [...counts.keys()].map((squares) => [
        1 - squares / middle,
        [...counts]
          .filter(([other]) => Math.abs(other - middle) >= Math.abs(squares - middle))
          .reduce((sum, [, count]) => sum + count, 0) / total,
      ]),
    );
  }

  it('is that of counting every order of nine, to four thousandths', () => {
    for (const [rho, chance] of exactChances(9)) {
      if (Math.abs(rho) < 1) expect(Math.abs(rankChance(rho, 9) - chance), String(rho)).toBeLessThan(0.004);
    }
  });
});

describe('the chance of a rank correlation beyond nine', () => {
  // R 4.2.2, cor.test(method = 'spearman', exact = TRUE): 2 * pRho(squares + 2, n), lower tail.
  it.each([
    [10, 132, 0.583540584566],
    [10, 34, 0.00984413616631],
    [12, 144, 0.104092832874],
    [12, 58, 0.00316125210939],
    [20, 666, 0.0265575547428],
    [20, 266, 2.83261865869e-5],
    [30, 900, 1.24880567881e-6],
  ])('is that of R for %i pairs with a sum of squares of %i', (n, squares, p) => {
    expect(rankChance(1 - (6 * squares) / (n ** 3 - n), n) / p).toBeCloseTo(1, 7);
  });

  it('is nothing for one that is whole, and Student’s far in the tail', () => {
    expect([1, -1, 1 + 1e-12].map((rho) => rankChance(rho, 9))).toEqual([0, 0, 0]);
    // Abramowitz & Stegun 26.7.4 with 8 degrees of freedom; the sine of the angle is the correlation.
    const c = 1 - 0.99 ** 2;
    const within = 0.99 * (1 + c / 2 + (3 * c ** 2) / 8 + (5 * c ** 3) / 16);
    expect(rankChance(0.99, 10) / (1 - within)).toBeCloseTo(1, 6);
  });
});

it('has the share that lasts beyond any duration, and no interval where none is left', () => {
  const curve = survivalCurve([2, 4, 4, 6].map((duration) => ({ duration, cause: 'worn out' })));
  expect([1.9, 2, 3, 4, 5.9, 6, 9].map((duration) => survivingAt(curve, duration))).toEqual([
    1, 0.75, 0.75, 0.25, 0.25, 0, 0,
  ]);
  expect(curve.at(-1)!.interval).toEqual([0, 0]);
});

it('finds no ways in which fewer than two profiles vary', () => {
  for (const profiles of [[], [[1, 2]]])
    expect(() => principalComponents(profiles)).toThrow(`at least 2, got ${profiles.length}`);
});

describe('a control chart', () => {
  it('has a value on its limit inside it, and level steps make no trend', () => {
    // Moving ranges of 1, whose mean in a normal distribution is 2 / sqrt pi standard deviations.
    const level = [0, 1, 0, 1, 0, 1, 0, 1];
    expect(controlChart(level).upper).toBeCloseTo(0.5 + (3 * Math.sqrt(Math.PI)) / 2, 9);
    expect(controlChart(level.map(() => 1)).signals.flat()).toEqual([]);
    const rising = [0, 1, 2, 2, 3, 4, 5, 6];
    expect(controlChart(rising).signals.flat()).not.toContain('six rising or falling');
    expect(controlChart([0, 1, 2, 3, 4, 5, 5, 5]).signals[5]).toContain('six rising or falling');
  });
});
