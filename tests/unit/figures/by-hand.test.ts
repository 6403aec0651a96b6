import { describe, expect, it } from 'vitest';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { figureFrom } from '../../../src/figures/figure.ts';
import { combined, isOnBlade } from '../../../src/figures/functional.ts';
import { betweenRead, patchesOf } from '../../../src/figures/patches.ts';
import { ratio } from '../../../src/figures/ratio.ts';
import { ripplePlaces } from '../../../src/figures/ripple.ts';
import { turningOf } from '../../../src/figures/simultaneous.ts';
import { withOwnFactors, zonesThatLost } from '../../../src/figures/surely-lost.ts';
import { facingMap, factorAt, mapDifference, mapGrid } from '../../../src/figures/surface-map.ts';
import { throughReadings } from '../../../src/figures/through-readings.ts';
import { mapWithUnread, unreadBetween } from '../../../src/figures/unread.ts';
import { readablePlaces } from '../../../src/figures/where-to-read.ts';
import { zoneFigures } from '../../../src/figures/zone-figures.ts';
import { zoneRatios } from '../../../src/figures/zone-ratios.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { figuresOf } from '../../../src/surface/posterior-figures.ts';
import type { ReedModel } from '../../../src/surface/reed-model.ts';
import { readSample } from '../../read-sample.ts';

const [pass] = readSample('plain').passes;
const heart = rectangleZone('heart', 5.5, 8.5);
/** A fit of readings that lie on a plane for each blade, thickness by distance from the tip and place across. */
const planes = (of: Readonly<Record<'A' | 'B', (y: number, u: number) => number>>, blades = ['A', 'B']) =>
  fitReed(
    [
      {
        ...pass!,
        readings: pass!.readings
          .filter(({ blade }) => blades.includes(blade))
          .map((r) => ({ ...r, thicknessMm: of[r.blade](r.fromTipMm, r.across) })),
      },
    ],
    { stepMm: 0.001, seating: { sdMm: 0.0005, from: 'declared' } },
  );
const tilted = { A: (_: number, u: number) => 0.4 + 0.02 * u, B: (_: number, u: number) => 0.5 - 0.06 * u };
// The sample's blade is 7 - 0.09 y wide: 19.11 mm2 from 5.5 to 8.5.
const AREA_MM2 = 19.11;

describe('a zone of two tilted planes', () => {
  const { blades, mean, volume, balance } = zoneFigures(planes(tilted), 0, heart);

  it('has the mean of each blade, of both, and their volume', () => {
    const of = [blades.A, blades.B, mean];
    const expected = [0.4, 0.5, 0.45];
    of.forEach((one, i) => expect(one!.valueMm, String(i)).toBeCloseTo(expected[i]!, 3));
    expect(volume!.value).toBeCloseTo(0.9 * AREA_MM2, 1);
  });

  it('has A less B, right less left, side 1 less side 2', () => {
    expect(balance!.blade.valueMm).toBeCloseTo(-0.1, 3);
    expect(balance!.hand.valueMm).toBeCloseTo((0.02 - 0.06) / 2, 3);
    expect(balance!.side.valueMm).toBeCloseTo((-0.02 - 0.06) / 2, 3);
  });

  it('has of one blade what that blade has, and no balance', () => {
    const one = zoneFigures(planes(tilted, ['A']), 0, heart);
    expect(Object.keys(one.blades)).toEqual(['A']);
    expect(one.balance).toBeUndefined();
    expect(one.mean!.valueMm).toBeCloseTo(one.blades.A!.valueMm, 12);
    // A volume is the mean over so much area, and as unsure.
    expect(one.volume!.value / one.mean!.valueMm).toBeCloseTo(AREA_MM2, 6);
    expect(one.volume!.u / one.mean!.uMm).toBeCloseTo(AREA_MM2, 6);
  });
});

describe('ratios of zones', () => {
  it('are of the means over their areas, both blades together, for the pairs that are there', () => {
    const rising = {
      A: (y: number) => 0.1 + 0.01 * y,
      B: (y: number) => 0.2 + 0.01 * y,
    };
    const zones = [rectangleZone('tip', 1, 3), heart, rectangleZone('other', 9, 11)];
    const found = zoneRatios(planes(rising), 0, zones);
    expect(found.map(({ upper, lower, title }) => [upper, lower, title])).toEqual([
      ['tip', 'heart', 'tip to heart'],
    ]);
    // By hand, areas 7 - 0.09 y wide: 1.99560 and 6.98940 mm from the tip in the mean.
    expect(found[0]!.ratio.value).toBeCloseTo((0.15 + 0.01 * 1.9956) / (0.15 + 0.01 * 6.9894), 3);
    expect(zoneRatios(planes(rising), 0, [heart])).toEqual([]);
  });

  it('ask for a lower figure three standard uncertainties from zero', () => {
    const model = planes(tilted, ['A']);
    const over = (lowerMm: number) => {
      const posterior = {
        mean: Float64Array.of(1, lowerMm),
        covariance: Float64Array.of(0.01, 0, 0, 0.01),
        loadings: new Float64Array(0),
      };
      const stand: ReedModel = {
        ...model,
        blades: { A: posterior },
        sharedCovariance: new Float64Array(0),
        together: (_, figures) =>
          figuresOf(
            posterior,
            figures.map(([term]) => term!.weights),
          ),
      };
      const of = (...weights: number[]) => ({ A: [{ pass: 0, weights: Float64Array.from(weights) }] });
      return ratio(stand, of(1, 0), of(0, 1));
    };
    expect(over(-0.31).value).toBeCloseTo(-1 / 0.31, 9);
    for (const lowerMm of [0.29, -0.29]) expect(() => over(lowerMm)).toThrow('must clearly differ from zero');
  });
});

describe('what was not read', () => {
  const read = { overallLengthMm: 70, readings: [{ ...pass!.readings[0]!, fromTipMm: 10, across: 0 }] };
  const unread = unreadBetween([read, read], { before: 0, after: 1 }, read.readings[0]!.blade);

  it('grows with the distance along or across, whichever is more reaches', () => {
    // A reach is 1.5 mm along and 0.25 across: 1.2 reaches along and 1.4 across, 1.5 along alone, 0.6 across.
    expect(unread(11.8, 0.35)).toBeCloseTo(0.4, 12);
    expect(unread(7.75, 0)).toBeCloseTo(0.5, 12);
    expect(unread(10, 0.15)).toBe(0);
  });

  it('is in the doubt of a map, place by place', () => {
    const map = {
      ysMm: [10, 12.25],
      us: [0, 0.4],
      valuesMm: new Float64Array(4),
      uMm: Float64Array.of(0.003, 0.004, 0.005, 0.006),
      factor: () => 2,
    };
    // 1.6 reaches across, 1.5 along, or both: 0.6, 0.5, 0.6 of 0.012 mm.
    const expected = [0.003, Math.hypot(0.004, 0.0072), Math.hypot(0.005, 0.006), Math.hypot(0.006, 0.0072)];
    mapWithUnread(map, unread).uMm.forEach((u, i) => expect(u).toBeCloseTo(expected[i]!, 12));
  });
});

describe('maps', () => {
  const map = (factor: (place?: number) => number, ...valuesMm: number[]) => ({
    ...{ ysMm: [0, 1], us: [-1, 0, 1] },
    valuesMm: Float64Array.from(valuesMm),
    uMm: Float64Array.from(valuesMm, (value) => value / 100),
    factor,
  });

  it('have the factor of the nearest place', () => {
    const numbered = map((place) => place!, 1, 2, 3, 4, 5, 6);
    const at = [
      [0.4, -0.6],
      [0.6, -0.6],
      [0.4, -0.4],
      [0.5, 0.5],
    ] as const;
    expect(at.map(([y, u]) => factorAt(numbered, y, u))).toEqual([0, 3, 1, 5]);
  });

  it('are taken from each other with both doubts and the larger factor', () => {
    const less = mapDifference(
      map(() => 2.5, 4, 0, 0, 0, 0, 0),
      map(() => 3, 3, 0, 0, 0, 0, 1),
    );
    expect([...less.valuesMm]).toEqual([1, 0, 0, 0, 0, -1]);
    expect(less.uMm[0]).toBeCloseTo(0.05, 12);
    expect([
      less.factor(),
      mapDifference(
        less,
        map(() => 1),
      ).factor(),
    ]).toEqual([3, 3]);
  });

  it('are turned round for the facing blade', () => {
    const facing = facingMap(map(() => 2, 1, 2, 3, 4, 5, 6));
    expect([...facing.valuesMm]).toEqual([3, 2, 1, 6, 5, 4]);
    expect(facing.uMm[3]).toBe(0.06);
  });

  it('lie on an even grid from tip to end and edge to edge', () => {
    expect(mapGrid(20, 3, 5)).toEqual({ ysMm: [0, 10, 20], us: [-1, -0.5, 0, 0.5, 1] });
  });
});

it('can read rows every millimetre as far as was read, on nine lines', () => {
  const places = readablePlaces(planes(tilted, ['A']), 0, 2.9);
  expect(places.map(({ fromTipMm }) => fromTipMm)).toEqual([...Array(9).fill(1), ...Array(9).fill(2)]);
  const lines = [-0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8];
  expect(places.slice(0, 9).map(({ across }) => across)).toEqual(lines);
});

it('ends a blade at tip, end and edges, but for rounding', () => {
  const model = planes(tilted, ['A']);
  const { bladeLengthMm } = pass!;
  const on = (fromTipMm: number, across: number) => isOnBlade(model, { pass: 0, fromTipMm, across });
  expect([on(-1e-7, 0), on(bladeLengthMm + 1e-7, 0), on(5, 1), on(5, -1)]).toEqual([true, true, true, true]);
  expect([on(-1e-5, 0), on(bladeLengthMm + 1e-5, 0), on(5, 1.001), on(5, -1.001)]).toEqual(
    Array(4).fill(false),
  );
});

it('makes a figure of an estimate, of a number without a doubt, or of the reason why there is none', () => {
  const name = { of: 'K-1, pass 0', id: 'zone.heart.mean', quantity: 'thickness' } as const;
  expect(figureFrom(name, { valueMm: 0.4, uMm: 0.01 })).toEqual({ ...name, value: 0.4, u: 0.01 });
  expect(figureFrom(name, { value: 3, u: 0.5 })).toEqual({ ...name, value: 3, u: 0.5 });
  expect(figureFrom(name, 7)).toEqual({ ...name, value: 7 });
  expect(figureFrom(name, 'not read')).toEqual({ ...name, absent: 'not read' });
});

it('combines values that were estimated together, those without a factor by none', () => {
  const joint = { valuesMm: Float64Array.of(1, 2), covariance: Float64Array.of(1, 0.5, 0.5, 4) };
  expect(combined(joint, [2])).toEqual({ valueMm: 2, uMm: 2 });
  // 1 + 4 - 2 x 0.5.
  expect(combined(joint, [1, -1])).toEqual({ valueMm: -1, uMm: 2 });
});

it('finds places between two measurable ones in their own column', () => {
  const map = {
    ...{ ysMm: [0, 0.5, 1], us: [-1, 0, 1], uMm: new Float64Array(9) },
    valuesMm: new Float64Array(9).fill(0.02),
    factor: () => 3,
  };
  const sure = Uint8Array.of(0, 0, 1, 0, 0, 0, 0, 0, 1);
  expect([...betweenRead(map, sure, [0, 1])]).toEqual([0, 0, 0, 0, 0, 1, 0, 0, 0]);
});

it('turns along a row or a column of places by the sum of its angles, and over no area', () => {
  const near = (rows: number, columns: number, of: 'over' | 'down') => ({
    ...{ rows, columns, variance: Float64Array.of(1, 4, 9) },
    ...{
      over: new Float64Array(3),
      down: new Float64Array(3),
      slant: new Float64Array(3),
      cross: new Float64Array(3),
    },
    [of]: Float64Array.of(2 * Math.cos(0.1), 6 * Math.cos(0.2), 0),
  });
  for (const line of [near(1, 3, 'over'), near(3, 1, 'down')]) {
    const { length, area } = turningOf(line);
    expect(length).toBeCloseTo(0.3, 9);
    expect(area).toBe(0);
  }
});

describe('zones that surely lost cane', () => {
  const zones = [heart, rectangleZone('tip', 0, 4)];
  const lost = (ratio: number, among = zones) =>
    zonesThatLost(among, () => ({ valueMm: ratio * 0.002, uMm: 0.002 })).length;

  it('are told one in a hundred times where none did, all zones together', () => {
    // Normal quantiles of any table: 0.99 is 2.3263, 0.995 is 2.5758.
    expect([lost(2.326, [heart]), lost(2.327, [heart])]).toEqual([0, 1]);
    expect([lost(2.575, zones), lost(2.576, zones), lost(-3)]).toEqual([0, 2, 0]);
    expect(zonesThatLost(zones, () => undefined)).toEqual([]);
  });

  it('tell their places by one side of 95 %, where cane went and that asks for less', () => {
    const levels: number[] = [];
    const map = {
      ...{ ysMm: [5, 7, 9], us: [0], valuesMm: Float64Array.of(1, 1, 1), uMm: Float64Array.of(1, 1, 1) },
      factor: () => 4,
      factorOver: (_: unknown, level: number) => {
        levels.push(level);
        return 3;
      },
    };
    const own = withOwnFactors(map, [heart]);
    expect([own.factor(), own.factor(0), own.factor(1), own.factor(2)]).toEqual([4, 4, 3, 4]);
    expect(levels).toEqual([0.9]);
    expect(withOwnFactors({ ...map, valuesMm: Float64Array.of(1, -1, 1) }, [heart]).factor(1)).toBe(4);
    expect(withOwnFactors({ ...map, factor: () => 2 }, [heart]).factor(1)).toBe(2);
  });
});

it('sets a place against pairs about it as far as the very end and edge of the blade', () => {
  const pairs = (fromTipMm: number, across: number, lengthMm: number) =>
    (ripplePlaces(fromTipMm, across, lengthMm).length - 1) / 2;
  const whole = pairs(10, 0, 20);
  // Surroundings reach 0.7 mm along: common practice, no source.
  const reach = 0.7;
  expect(pairs(10, 0, 10 + reach)).toBe(whole);
  expect(pairs(10, 0, 10 + reach - 1e-9)).toBeLessThan(whole);
  expect(pairs(reach, 0, 20)).toBe(whole);
  expect(pairs(reach - 1e-9, 0, 20)).toBeLessThan(whole);
});

it('gives a patch the area of its cells, as wide as the blade is there', () => {
  const model = fitReed(readSample('plain').passes.slice(0, 2));
  const grid = mapGrid(20, 41, 21);
  const valuesMm = new Float64Array(41 * 21).fill(0.02);
  const marked = new Uint8Array(valuesMm.length);
  // Rows at 5, 5.5 and 6 mm, four columns each: cells of 0.5 mm by a tenth of the half-width.
  for (const row of [10, 11, 12]) for (const column of [8, 9, 10, 11]) marked[row * 21 + column] = 1;
  const map = { ...grid, valuesMm, uMm: new Float64Array(valuesMm.length).fill(0.001), factor: () => 3 };
  const [patch, ...others] = patchesOf(model, { before: 0, after: 1 }, 'A', map, marked, () => 0);
  expect(others).toEqual([]);
  const halfWidths = [5, 5.5, 6].map((y) => (7 - 0.09 * y) / 2);
  expect(patch!.areaMm2).toBeCloseTo(4 * 0.5 * 0.1 * halfWidths.reduce((sum, w) => sum + w, 0), 9);
  expect([patch!.fromMm, patch!.toMm]).toEqual([5, 6]);
});

it('goes through two rows of two readings as straight as they lie', () => {
  const at = (fromTipMm: number, across: number) => ({
    fromTipMm,
    across,
    thicknessMm: 0.3 + 0.02 * fromTipMm + 0.1 * across,
  });
  const readings = [at(2, -0.5), at(2, 0.5), at(6, -0.5), at(6, 0.5)];
  const map = throughReadings(readings, { ysMm: [2, 4, 7], us: [-0.5, 0.25] })!;
  for (const [i, mm] of [0.29, 0.365, 0.33, 0.405].entries()) expect(map.valuesMm[i]).toBeCloseTo(mm, 12);
  expect([...map.valuesMm.slice(4)]).toEqual([NaN, NaN]);
  expect(throughReadings(readings.slice(1), { ysMm: [2], us: [0] })).toBeUndefined();
});
