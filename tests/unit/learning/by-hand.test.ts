import { describe, expect, it } from 'vitest';
import { meanInterval } from '../../../src/learning/mean-interval.ts';
import { controlChart } from '../../../src/learning/control-chart.ts';
import { falseDiscoveryRates, rankChance, rankInterval } from '../../../src/learning/rank-correlation.ts';

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
