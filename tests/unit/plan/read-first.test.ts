import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import type { StrokeLimits } from '../../../src/plan/stroke-limits.ts';
import { stationsToRead } from '../../../src/plan/read-first.ts';

const ysMm = Float64Array.from({ length: 21 }, (_, i) => i);
const us = Float64Array.from({ length: 11 }, (_, j) => -1 + j / 5);
const count = ysMm.length * us.length;
const zones = [rectangleZone('all', 0, 20)];

/** Two hundredths over everywhere, sure of it, with places where doubt alone forbids to scrape. */
function withDoubt(isDoubtful: (fromTipMm: number, across: number) => boolean) {
  const doubtful = Uint8Array.from({ length: count }, (_, i) =>
    isDoubtful(ysMm[Math.floor(i / us.length)]!, us[i % us.length]!) ? 1 : 0,
  );
  const over = new Float64Array(count).fill(1);
  return {
    map: { ysMm, us },
    sure: over,
    apartMm: over,
    room: { mm: new Float64Array(count), clearMm: over, doubtful },
  } as unknown as StrokeLimits;
}

describe('places to read before they are scraped', () => {
  it('are none where nothing is in doubt', () => {
    const limits = withDoubt(() => false);
    expect(stationsToRead('A', limits, zones)).toEqual([]);
  });

  it('are the one station in the middle of a small doubt', () => {
    const limits = withDoubt((y, u) => Math.abs(y - 7) <= 1 && Math.abs(u - 0.4) <= 0.21);
    expect(stationsToRead('B', limits, zones)).toEqual([{ blade: 'B', fromTipMm: 7, across: 0.4 }]);
  });

  it('are taken where most is open, and few', () => {
    const limits = withDoubt((y) => y >= 2 && y <= 18);
    const stations = stationsToRead('A', limits, zones);
    expect(stations).toHaveLength(4);
    expect(new Set(stations.map(({ fromTipMm, across }) => `${fromTipMm} ${across}`)).size).toBe(4);
  });

  it('leave out what no zone holds, what is not over, and what is near a floor or a lack', () => {
    const limits = withDoubt((y) => y === 15);
    expect(stationsToRead('A', limits, [rectangleZone('tip', 0, 5)])).toEqual([]);
    const none = new Float64Array(count).fill(-1);
    expect(stationsToRead('A', { ...limits, sure: none }, zones)).toEqual([]);
    expect(stationsToRead('A', { ...limits, apartMm: none }, zones)).toEqual([]);
  });
});
