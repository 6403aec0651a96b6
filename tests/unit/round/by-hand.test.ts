import { describe, expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { doubtfulPlaces } from '../../../src/round/doubtful-places.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { rowsOf } from '../../../src/round/grid-rows.ts';
import { inSequence, standingIds } from '../../../src/round/in-force.ts';
import { palerSentence, sinceWords } from '../../../src/round/older-readings.ts';
import { oddness, standsIn } from '../../../src/round/oddness.ts';
import { isBurst } from '../../../src/round/pad-keys.ts';
import { acrossWords, nearestStep, placeKey } from '../../../src/round/place-words.ts';
import { typedPositions } from '../../../src/round/positions-text.ts';
import { replacedInRound } from '../../../src/round/replaced.ts';
import { roundPlans } from '../../../src/round/round-plans.ts';
import { bladeLengthOf, halfWidthOf, overallLengthOf } from '../../../src/round/rounds-of-reed.ts';
import { pickedPlace } from '../../../src/round/snap-place.ts';
import { USUAL_GOING } from '../../../src/round/station-order.ts';
import { typedZero } from '../../../src/round/typed-zero.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';
import { ROUND_ID, idOf, stamped, station, taken, withdrawn } from './acts.ts';

// Limits of the trade: common practice, no source. Each is asked for just within and just beyond it.

describe('the rounds to begin with', () => {
  const placesOf = (scrape: 'long' | 'short', name: string) =>
    roundPlans(scrape)
      .find((plan) => plan.name === name)!
      .stations.filter(({ blade }) => blade === 'A')
      .map(({ fromTipMm, across }) => `${fromTipMm} ${across}`)
      .join(', ');

  it.each([
    ['long', 'Spot', '1 -0.8, 1 0.8'],
    ['long', 'Quick', '1 -0.8, 1 0, 1 0.8, 3 0, 7 0, 12 -0.4, 12 0.4, 20.5 0'],
    ['short', 'Quick', '1 -0.8, 1 0, 1 0.8, 3 0, 5 -0.8, 5 0.8, 7 0, 23 0'],
  ] as const)('read of a %s scrape, %s: %s', (scrape, name, places) => {
    expect(placesOf(scrape, name)).toBe(places);
  });

  it.each([
    ['long', 'Survey', [1, 2, 3, 4, 5, 8, 12, 20.5]],
    ['short', 'Survey', [1, 2, 3, 5, 6, 8, 10, 23]],
    ['long', 'Full map', [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20]],
    ['short', 'Full map', [0.5, 1, 2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20]],
  ] as const)('lie for a %s scrape, %s, at these distances', (scrape, name, distances) => {
    const { stations } = roundPlans(scrape).find((plan) => plan.name === name)!;
    expect([...new Set(stations.map(({ fromTipMm }) => fromTipMm))]).toEqual(distances);
  });

  it('go row by row, turning, A whole and then B', () => {
    expect(USUAL_GOING).toEqual({ order: 'rows-turning', bladeByBlade: true, sameSideFirst: false });
  });
});

describe('a pointer', () => {
  const at = (fromTipMm: number, across: number) => pickedPlace([], { fromTipMm, across }, 20);

  it('means the edge a little beyond it, and nothing farther out', () => {
    expect(at(5, 1.15)).toEqual({ fromTipMm: 5, across: 1 });
    expect(at(5, -1.15)).toEqual({ fromTipMm: 5, across: -1 });
    expect(at(-0.5, 0)).toEqual({ fromTipMm: 0, across: 0 });
    expect(at(20, 0)).toEqual({ fromTipMm: 20, across: 0 });
    expect([at(5, 1.16), at(5, -1.16), at(-0.51, 0), at(20.01, 0)]).toEqual(Array(4).fill(undefined));
  });
});

describe('an odd reading', () => {
  const expected = { valueMm: 0.4, sdMm: 0 };

  it('lies beyond three of the least standard deviation, 0.005 mm, and is told the range of two', () => {
    expect(oddness(0.415, expected, 'hundredths')).toBeUndefined();
    expect(oddness(0.4151, expected, 'hundredths')).toMatchObject({
      expectedFromMm: expect.closeTo(0.39, 12) as number,
      expectedToMm: expect.closeTo(0.41, 12) as number,
    });
    expect(() => oddness(0.4, { valueMm: 0.4, sdMm: -1e-9 }, 'hundredths')).toThrow(
      'sdMm: must be 0 or more',
    );
  });

  it('is confirmed by another within two hundredths', () => {
    const earlier = { thicknessMm: 0.4, isOdd: true };
    expect([standsIn(earlier, 0.42), standsIn(earlier, 0.421), standsIn(earlier, 0.379)]).toEqual([
      false,
      true,
      true,
    ]);
    expect(standsIn({ ...earlier, isOdd: false }, 0.5)).toBe(false);
  });
});

it('takes a zero of one millimetre either way, and none beyond', () => {
  expect([typedZero('100', 'hundredths'), typedZero('-1000', 'thousandths'), typedZero('0', 'thou')]).toEqual(
    [1, -1, 0],
  );
  for (const [text, count] of [
    ['101', 'hundredths'],
    ['-1001', 'thousandths'],
    ['', 'hundredths'],
    ['a', 'hundredths'],
  ] as const)
    expect(typedZero(text, count), text).toBeUndefined();
});

it('takes five keys each within 40 ms of the one before for a gauge', () => {
  expect(isBurst([0, 40, 80, 120, 160])).toBe(true);
  expect(isBurst([0, 41, 80, 120, 160])).toBe(false);
  expect(isBurst([0, 40, 80, 120])).toBe(false);
});

describe('places', () => {
  it('are one within half a thousandth of a millimetre, on either side of nought', () => {
    const key = (fromTipMm: number, across: number) => placeKey({ blade: 'A', fromTipMm, across });
    expect(key(10.0004, -0)).toBe(key(10, 0));
    expect(key(10.0006, 0)).not.toBe(key(10, 0));
    expect(key(10, 0.4)).toBe('A 10.000 0.400');
  });

  it('beyond the outer steps go by these', () => {
    expect([-1.3, -0.8, -0.61, -0.59, 0.59, 0.61, 1.3].map(nearestStep)).toEqual([0, 0, 0, 1, 3, 4, 4]);
    expect(acrossWords(0.9, { decimal: 'comma' })).toBe('right edge, 0,9 of the way to the edge');
    expect(acrossWords(-0.804, { decimal: 'point' })).toBe('left edge');
  });

  it('are asked for as the maker writes numbers', () => {
    expect(() => typedPositions('x', 'share', 3, { decimal: 'comma' })).toThrow('such as \u22120,8 0 0,8.');
    expect(() => typedPositions('1.01', 'share', 3, { decimal: 'point' })).toThrow('beyond the edge');
    expect(typedPositions('1 -1 1', 'share', 3, { decimal: 'point' })).toEqual([-1, 1]);
  });

  it('at one distance stand in two rows where one is read and the other a control', () => {
    const rows = rowsOf([station('A', 10, 0), { ...station('B', 10, 0), role: 'control' }]);
    expect(rows.map(({ blades, role }) => [blades, role])).toEqual([
      ['A', 'station'],
      ['B', 'control'],
    ]);
    expect(rowsOf([station('A', 10, 0), station('B', 10, 0)]).map(({ blades }) => blades)).toEqual(['both']);
  });
});

describe('a round', () => {
  const control = { ...station('A', 20, 0), role: 'control' as const };

  it('keeps what it asks for of a place, and no empty entry of a reading', () => {
    const state = foldRound({ stations: [control] }, stamped([taken(station('A', 20, 0), 0.4)]));
    expect(state.stations.map((one) => one.station.role)).toEqual(['control']);
    expect(Object.keys(state.stations[0]!.readings[0]!)).toEqual(['id', 'thicknessMm', 'flag']);
    expect(state.stations[0]!.spreadMm).toBeUndefined();
  });

  it('puts acts of one count in the order of their devices, each once', () => {
    const [one] = stamped([taken(control, 0.4)], 1, idOf(8));
    const [other] = stamped([{ ...taken(control, 0.5), id: idOf(2) }], 1, idOf(7));
    expect(inSequence([one!, other!, one!]).map(({ id }) => id)).toEqual([other!.id, one!.id]);
  });

  it('holds what a withdrawal took back where that is withdrawn in turn, and ends where they chase each other', () => {
    const log = stamped([taken(control, 0.4), withdrawn(idOf(1)), withdrawn(idOf(2)), withdrawn(idOf(1))]);
    expect([...standingIds(log)]).toEqual([idOf(3), idOf(4)]);
    const ring = stamped([withdrawn(idOf(2)), withdrawn(idOf(1))]);
    expect(standingIds(ring).size).toBe(1);
    expect(
      foldRound({ stations: [control] }, stamped([{ ...taken(control, 0.4), roundId: ROUND_ID }])).nTaken,
    ).toBe(1);
  });
});

it('calls no reading replaced that stands again', () => {
  const log = stamped([taken(station('A', 5, 0), 0.4), withdrawn(idOf(1)), withdrawn(idOf(2))]);
  expect(replacedInRound(log)).toEqual([]);
  expect(replacedInRound(log.slice(0, 2))).toMatchObject([{ how: 'round', was: [{ thicknessMm: 0.4 }] }]);
});

it('asks for each doubtful place once, and for no more than there are', () => {
  const model = fitReed(readSample('plain').passes.slice(0, 1));
  const among = [station('A', 5, 0), station('A', 15, 0)];
  const found = doubtfulPlaces(model, among, 5);
  expect(new Set(found)).toEqual(new Set(among));
  expect(found).toHaveLength(2);
  expect(doubtfulPlaces(model, among, 1)).toEqual(found.slice(0, 1));
});

describe('a reed without lengths', () => {
  const reed = { styleId: 'long-scrape' } as Reed;

  it('has the usual blade, and a new pass is shorter by its clip', () => {
    expect([bladeLengthOf(reed, []), bladeLengthOf({ ...reed, styleId: 'short-scrape' }, [])]).toEqual([
      23.5, 26,
    ]);
    const last = { overallLengthMm: 69, threadMm: 46 } as never;
    expect(bladeLengthOf(reed, [last])).toBe(23);
    expect(overallLengthOf({ clipMm: 0.4 }, [last])).toBeCloseTo(68.6, 12);
    expect(overallLengthOf({ overallLengthMm: 68.5, clipMm: 0.4 }, [last])).toBe(68.5);
    expect(overallLengthOf({ clipMm: 0.4 }, [])).toBeUndefined();
  });

  it('is as wide at one place of the cane however long the last pass is', () => {
    const last = { overallLengthMm: 69 } as never;
    const first = { overallLengthMm: 70 } as never;
    expect(halfWidthOf(reed, [first, last])(9)).toBeCloseTo(halfWidthOf(reed, [])(10), 12);
  });
});

it('names the passes of paler figures once each', () => {
  expect(palerSentence([])).toBe('');
  expect(palerSentence(['pass 2', 'pass 1', 'pass 2'])).toBe('Paler, not read in this pass: pass 1; pass 2.');
  expect(sinceWords({ passIndex: 2 })).toBe('pass 2');
});
