import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Order } from '../../../shared/grid.ts';
import { facing } from '../../../shared/blade.ts';
import { acrossFromMm, roundPlans, stationsOf } from '../../../src/round/round-plans.ts';
import { placeKey } from '../../../src/round/place-words.ts';
import { inOrder, type Going } from '../../../src/round/station-order.ts';

const SMALL = stationsOf([
  { fromTipMm: 1, across: [-0.8, 0, 0.8] },
  { fromTipMm: 2, across: [-0.8, 0, 0.8] },
]);
const USUAL: Going = { order: 'rows', bladeByBlade: true, sameSideFirst: false, beginOn: 'left' };
const SIGN: Readonly<Record<string, string>> = { '-0.8': 'l', '0': 'm', '0.8': 'r' };
const way = (going: Partial<Going>) =>
  inOrder(SMALL, { ...USUAL, ...going })
    .map(({ blade, fromTipMm, across }) => `${blade}${fromTipMm}${SIGN[String(across)]}`)
    .join(' ');

describe('the order of going', () => {
  it('goes row by row, left to right in own view, on both blades alike', () => {
    expect(way({})).toBe('A1l A1m A1r A2l A2m A2r B1l B1m B1r B2l B2m B2r');
  });
  it('turns at the end of each row', () => {
    expect(way({ order: 'rows-turning' })).toBe('A1l A1m A1r A2r A2m A2l B1l B1m B1r B2r B2m B2l');
  });
  it('goes down the centre line first, then the beginning side', () => {
    expect(way({ order: 'columns' })).toBe('A1m A2m A1l A2l A1r A2r B1m B2m B1l B2l B1r B2r');
    expect(way({ order: 'columns-turning' })).toBe('A1m A2m A2l A1l A1r A2r B1m B2m B2l B1l B1r B2r');
  });
  it('turns B for the maker who begins on the same side of the reed', () => {
    expect(way({ sameSideFirst: true })).toBe('A1l A1m A1r A2l A2m A2r B1r B1m B1l B2r B2m B2l');
  });
  it('begins on the right for a left hand', () => {
    expect(way({ beginOn: 'right' })).toBe('A1r A1m A1l A2r A2m A2l B1r B1m B1l B2r B2m B2l');
    expect(way({ beginOn: 'right', order: 'columns' })).toBe(
      'A1m A2m A1r A2r A1l A2l B1m B2m B1r B2r B1l B2l',
    );
  });
  it('changes blade at each row or column', () => {
    expect(way({ bladeByBlade: false })).toBe('A1l A1m A1r B1l B1m B1r A2l A2m A2r B2l B2m B2r');
  });
  it('keeps a list as it is, or as two lists', () => {
    const [a, b] = [SMALL[0]!, SMALL[6]!];
    const listed = (bladeByBlade: boolean) =>
      inOrder([b, a], { ...USUAL, order: 'as-listed', bladeByBlade }).map(({ blade }) => blade);
    expect(listed(false)).toEqual(['B', 'A']);
    expect(listed(true)).toEqual(['A', 'B']);
  });

  const going = fc.record({
    order: fc.constantFrom<Order>('rows', 'rows-turning', 'columns', 'columns-turning', 'as-listed'),
    bladeByBlade: fc.boolean(),
    sameSideFirst: fc.boolean(),
    beginOn: fc.constantFrom<'left' | 'right'>('left', 'right'),
  });
  const plans = fc.constantFrom(...roundPlans('long'), ...roundPlans('short'));

  it('asks for every station once, whatever the order', () => {
    fc.assert(
      fc.property(plans, going, ({ stations }, how) => {
        const before = stations.map(placeKey).sort();
        expect(inOrder(stations, how).map(placeKey).sort()).toEqual(before);
      }),
    );
  });

  it('with the same side first, B is gone over by the places that face those of A', () => {
    fc.assert(
      fc.property(plans, going, ({ stations }, how) => {
        fc.pre(how.order !== 'as-listed');
        const ordered = inOrder(stations, { ...how, sameSideFirst: true, bladeByBlade: true });
        const keys = (blade: 'A' | 'B') => ordered.filter((place) => place.blade === blade);
        expect(keys('B').map(placeKey)).toEqual(keys('A').map((place) => placeKey(facing(place))));
      }),
    );
  });
});

it('has rounds of 4, 16, 44 and 140 stations for both scrapes, no place twice', () => {
  for (const scrape of ['long', 'short'] as const) {
    const plans = roundPlans(scrape);
    expect(plans.map(({ stations }) => stations.length)).toEqual([4, 16, 44, 140]);
    for (const { stations } of plans) expect(new Set(stations.map(placeKey)).size).toBe(stations.length);
  }
});

it('reads the controls 3 mm above the thread', () => {
  const quick = roundPlans('long', 23.9)[1]!;
  const controls = quick.stations.filter(({ role }) => role === 'control');
  expect(controls.map(({ blade, fromTipMm }) => [blade, fromTipMm])).toEqual([
    ['A', 20.9],
    ['B', 20.9],
  ]);
});

it('turns millimetres off the middle into a fraction of the half-width', () => {
  expect(acrossFromMm(-1.7, 3.4)).toBe(-0.5);
  expect(() => acrossFromMm(3.6, 3.4)).toThrow(/must lie on the blade/);
});
