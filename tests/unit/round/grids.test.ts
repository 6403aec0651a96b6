import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BLADES } from '../../../shared/blade.ts';
import type { Grid, Station } from '../../../shared/grid.ts';
import { rowsOf, stationsOfRows, withStationToggled } from '../../../src/round/grid-rows.ts';
import { offeredPlans } from '../../../src/round/own-plans.ts';
import { placeKey } from '../../../src/round/place-words.ts';
import { positionsText, typedPositions } from '../../../src/round/positions-text.ts';
import { roundPlans } from '../../../src/round/round-plans.ts';
import { placeNear, snapPlace } from '../../../src/round/snap-place.ts';

const keys = (stations: readonly Station[]) => stations.map(placeKey).sort();
const stations = fc.uniqueArray(
  fc.record({
    blade: fc.constantFrom(...BLADES),
    fromTipMm: fc.integer({ min: 0, max: 46 }).map((half) => half / 2),
    across: fc.integer({ min: -10, max: 10 }).map((tenth) => tenth / 10 + 0),
    role: fc.constantFrom('station' as const, 'control' as const),
  }),
  { selector: placeKey, maxLength: 40 },
);

describe('rows of a grid', () => {
  it('hold every station and no other, whatever the grid', () => {
    fc.assert(
      fc.property(stations, (given) => {
        expect(keys(stationsOfRows(rowsOf(given)))).toEqual(keys(given));
      }),
    );
  });

  it('stand once where both blades are alike', () => {
    const [, quick] = roundPlans('long');
    expect(rowsOf(quick!.stations).map(({ blades, fromTipMm }) => [blades, fromTipMm])).toEqual([
      ['both', 1],
      ['both', 3],
      ['both', 7],
      ['both', 12],
      ['both', 20.5],
    ]);
  });

  it('put a station and take it away again', () => {
    fc.assert(
      fc.property(stations, (given) => {
        const place = { blade: 'A', fromTipMm: 3.3, across: 0.25 } as const;
        const more = withStationToggled(given, place);
        expect(more).toHaveLength(given.length + 1);
        expect(keys(withStationToggled(more, place))).toEqual(keys(given));
      }),
    );
  });
});

describe('positions across', () => {
  it.each([
    ['-0.8 0 0.8', 'share', [-0.8, 0, 0.8]],
    ['0,8; -0,8;0', 'share', [-0.8, 0, 0.8]],
    ['\u22122.5, 0, 2.5', 'mm', [-0.781, 0, 0.781]],
    ['', 'share', []],
  ] as const)('reads %j as %s', (text, unit, shares) => {
    expect(typedPositions(text, unit, 3.2, { decimal: 'point' })).toEqual(shares);
  });

  it.each([
    ['-0.8 x', 'share', /“x” is not a position/],
    ['1.2', 'share', /beyond the edge/],
    ['4', 'mm', /must lie on the blade/],
  ] as const)('refuses %j', (text, unit, why) => {
    expect(() => typedPositions(text, unit, 3.2, { decimal: 'point' })).toThrow(why);
  });

  it('are written so that they read back', () => {
    const share = fc.integer({ min: -100, max: 100 }).map((hundredth) => hundredth / 100 + 0);
    fc.assert(
      fc.property(fc.uniqueArray(share, { maxLength: 9 }), (given) => {
        const rising = [...given].sort((a, b) => a - b);
        for (const decimal of ['point', 'comma'] as const) {
          const text = positionsText(rising, 'share', 3, { decimal });
          expect(typedPositions(text, 'share', 3, { decimal })).toEqual(rising);
          if (decimal === 'comma') expect(text).not.toContain('.');
        }
      }),
    );
  });
});

it("offers the maker's own round in the place of one of the same name, for its style alone", () => {
  const own = {
    name: 'Quick',
    styleId: 'long-scrape',
    order: 'columns',
    bladeByBlade: false,
    sameSideFirst: true,
    stations: roundPlans('long')[0]!.stations,
  } as Grid;
  const names = (styleId: string) =>
    offeredPlans(roundPlans('long'), [own, { ...own, name: 'Corners' }], styleId).map(
      ({ name, stations: { length } }) => [name, length],
    );
  expect(names('long-scrape')).toEqual([
    ['Spot', 4],
    ['Quick', 4],
    ['Survey', 44],
    ['Full map', 140],
    ['Corners', 4],
  ]);
  expect(names('short-scrape')).toHaveLength(4);
});

it('takes a click for the nearest station within reach, and for a place on the blade elsewhere', () => {
  const places = [
    { fromTipMm: 1, across: 0 },
    { fromTipMm: 2, across: 0.4 },
  ];
  expect(placeNear(places, { fromTipMm: 1.8, across: 0.5 })).toBe(places[1]);
  expect(placeNear(places, { fromTipMm: 3.4, across: 0.5 })).toBeUndefined();
  expect(snapPlace({ fromTipMm: 3.41, across: 0.53 }, 23)).toEqual({ fromTipMm: 3.5, across: 0.5 });
  expect(snapPlace({ fromTipMm: 40, across: -1.4 }, 23)).toEqual({ fromTipMm: 23, across: -1 });
});
