import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import type { ExcessMap } from '../../../src/plan/excess.ts';
import { stationsToRead } from '../../../src/plan/read-first.ts';

const ysMm = Float64Array.from({ length: 21 }, (_, i) => i);
const us = Float64Array.from({ length: 11 }, (_, j) => -1 + j / 5);
const count = ysMm.length * us.length;
const zones = [rectangleZone('all', 0, 20)];

/** Two hundredths over everywhere, sure of it, with places where doubt alone forbids to scrape. */
function withDoubt(isDoubtful: (fromTipMm: number, across: number) => boolean) {
  const map = {
    ysMm,
    us,
    valuesMm: new Float64Array(count).fill(0.02),
    sure: new Uint8Array(count).fill(1),
  } as unknown as ExcessMap;
  const doubtful = Uint8Array.from({ length: count }, (_, i) =>
    isDoubtful(ysMm[Math.floor(i / us.length)]!, us[i % us.length]!) ? 1 : 0,
  );
  return { map, room: { mm: new Float64Array(count), doubtful } };
}

describe('places to read before they are scraped', () => {
  it('are none where nothing is in doubt', () => {
    const { map, room } = withDoubt(() => false);
    expect(stationsToRead('A', map, room, zones)).toEqual([]);
  });

  it('are the one station in the middle of a small doubt', () => {
    const { map, room } = withDoubt((y, u) => Math.abs(y - 7) <= 1 && Math.abs(u - 0.4) <= 0.21);
    expect(stationsToRead('B', map, room, zones)).toEqual([{ blade: 'B', fromTipMm: 7, across: 0.4 }]);
  });

  it('are taken where most is open, and few', () => {
    const { map, room } = withDoubt((y) => y >= 2 && y <= 18);
    const stations = stationsToRead('A', map, room, zones);
    expect(stations).toHaveLength(4);
    expect(new Set(stations.map(({ fromTipMm, across }) => `${fromTipMm} ${across}`)).size).toBe(4);
  });

  it('leave out what no zone holds, and what is not over', () => {
    const { map, room } = withDoubt((y) => y === 15);
    expect(stationsToRead('A', map, room, [rectangleZone('tip', 0, 5)])).toEqual([]);
    const under = { ...map, valuesMm: new Float64Array(count).fill(-0.02) };
    expect(stationsToRead('A', under, room, zones)).toEqual([]);
  });
});
