import { describe, expect, it } from 'vitest';
import { daysToFollow, waterAhead, waterInCane, type CaneWater } from '../../../src/climate/cane-water.ts';
import type { RoomDay } from '../../../src/climate/room-days.ts';

function day(number: number, humidityPct: number | undefined): RoomDay {
  if (humidityPct === undefined) return { day: number };
  const air = { temperatureC: 21.1, humidityPct, elevationM: 0 };
  const assumed = { temperatureAssumed: false, heightAssumed: true };
  return { day: number, entry: { at: '', from: 'room', air, ...assumed } };
}
const over = (...humidity: (number | undefined)[]) => waterInCane(humidity.map((pct, k) => day(k, pct)));

describe('water in the cane', () => {
  it('stays where the air stays, at what the table of the Wood Handbook has', () => {
    // Table 4-2 of the Wood Handbook (2021), 21.1 °C and 50 %: 9.2 %.
    const water = over(50, 50, 50, 50, 50);
    for (const { percent, settlesPct } of water) {
      expect(percent).toBeCloseTo(settlesPct, 12);
      expect(percent).toBeCloseTo(9.2, 1);
    }
  });

  it('is said from the third day on, and never over more than three days without air', () => {
    expect(over(50, 50)).toEqual([]);
    expect(over(50, 50, 50).map((one) => one.day)).toEqual([2]);
    expect(over(50, 50, 50, undefined, undefined, 50).map((one) => one.day)).toEqual([2, 5]);
    expect(over(50, 50, 50, undefined, undefined, undefined, 50, 50, 50).map((one) => one.day)).toEqual([
      2, 8,
    ]);
  });

  it('follows a turn of the air as many small steps by hand would', () => {
    const water = over(60, 60, 60, 40, 40);
    const [high, low] = [water[0]!.settlesPct, water[2]!.settlesPct];
    // m' = (e - m) / 1.7, with e going straight from day 2 to 3 and level after: Euler's method, a hundred thousand steps a day.
    let held = high;
    const steps = 100_000;
    for (let k = 0; k < 2 * steps; k++) {
      const level = Math.max(low, high + ((low - high) * (k + 0.5)) / steps);
      held += (level - held) / 1.7 / steps;
    }
    expect(water[2]!.percent).toBeCloseTo(held, 4);
  });

  it('doubts more what lags, and what was begun lately', () => {
    const steady = over(50, 50, 50, 50, 50, 50, 50, 50);
    const turned = over(50, 50, 50, 50, 50, 50, 50, 80);
    expect(steady[0]!.gapU).toBeGreaterThan(steady.at(-1)!.gapU);
    expect(turned.at(-1)!.gapU).toBeGreaterThan(3 * steady.at(-1)!.gapU);
    expect(steady.at(-1)!.u).toBeGreaterThan(0.5);
  });

  it('goes on to where it settles, and counts the days until the knife may come', () => {
    const now: CaneWater = { day: 10, percent: 11, u: 0.6, settlesPct: 8, settlesU: 0.5, gapU: 0.1 };
    const ahead = waterAhead(now, 3);
    // 8 + 3 exp(-t / 1.7).
    expect(ahead.map(({ percent }) => Number(percent.toFixed(3)))).toEqual([9.666, 8.925, 8.514]);
    expect(ahead.map((one) => one.day)).toEqual([11, 12, 13]);
    // 1.7 ln(3 / 0.75) = 2.36.
    expect(daysToFollow(now)).toBe(3);
    expect(daysToFollow({ ...now, percent: 8.6 })).toBe(0);
    expect(daysToFollow({ ...now, percent: 10, gapU: 1.1 })).toBe(0);
  });
});
