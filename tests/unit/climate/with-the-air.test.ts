import { describe, expect, it } from 'vitest';
import { dayOf } from '../../../shared/moment.ts';
import { makeId } from '../../../shared/ids.ts';
import type { Trial } from '../../../shared/trial.ts';
import type { CaneWater } from '../../../src/climate/cane-water.ts';
import { withTheAir } from '../../../src/climate/with-the-air.ts';

const id = (k: number) => makeId(k, new Uint8Array(10));
const FIRST = 20_000;
/** Dry and damp days by turns: 8 % and 10 %. */
const WATER = Array.from({ length: 40 }, (_, k): CaneWater => ({
  day: FIRST + k,
  percent: k % 2 ? 10 : 8,
  u: 0.5,
  settlesPct: 9,
  settlesU: 0.5,
  gapU: 0.1,
}));

function trial(k: number, own: Partial<Trial>): Trial {
  const at = `${dayOf(FIRST + k)}T10:00:00.000+00:00`;
  return {
    kind: 'trial',
    formatVersion: 1,
    id: id(k + 1000),
    versions: {},
    createdAt: at,
    updatedAt: at,
    reedId: id(1),
    playedAt: at,
    pitchCents: [],
    afterPass: 1,
    ...own,
  };
}

/** Wider by 0.2 mm on damp days, and by turns 0.02 more or less. */
const openings = (count: number, own: (k: number) => Partial<Trial> = () => ({})) =>
  Array.from({ length: count }, (_, k) =>
    trial(k, { openingMm: 1 + (k % 2 ? 0.2 : 0) + (k % 4 < 2 ? 0.01 : -0.01), ...own(k) }),
  );

describe('what changed with the reeds when the air changed', () => {
  it('is told with its slope and its doubt where it can be told', () => {
    // Nine pairs of 2 % more or less water: changes of 0.2, -0.22, 0.2, -0.18 and so on, in millimetres.
    const [found, ...more] = withTheAir(openings(10), WATER);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ heard: 'openingMm', pairs: 9 });
    // By hand: sum of products 2 * (5 * 0.2 + 2 * 0.22 + 2 * 0.18) over 9 * 4.
    expect(found!.perPercent).toBeCloseTo(3.6 / 36, 12);
    // Residuals: nought five times, 0.02 four times; u = sqrt(4 * 0.0004 / 8 / 36), and Student's 2.306 for 8 (tables).
    expect(found!.doubt).toBeCloseTo(2.306 * Math.sqrt(0.0016 / 8 / 36), 5);
  });

  it('says nothing of few pairs, of pairs with the knife between, and of what does not go with the air', () => {
    expect(withTheAir(openings(8), WATER)).toEqual([]);
    expect(
      withTheAir(
        openings(20, (k) => ({ afterPass: k })),
        WATER,
      ),
    ).toEqual([]);
    expect(
      withTheAir(
        openings(20, (k) => ({ openingMm: k % 4 < 2 ? 1 : 1.2 })),
        WATER,
      ),
    ).toEqual([]);
    expect(
      withTheAir(
        openings(20, (k) => ({ reedId: id(k + 5) })),
        WATER,
      ),
    ).toEqual([]);
  });
});
