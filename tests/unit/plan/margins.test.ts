import { describe, expect, it } from 'vitest';
import type { FloorTable } from '../../../shared/style.ts';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { thicknessMap } from '../../../src/figures/surface-map.ts';
import { excessOver, type ExcessMap } from '../../../src/plan/excess.ts';
import { roomAbove } from '../../../src/plan/floor-room.ts';
import { meanOverTarget } from '../../../src/plan/place-means.ts';
import { nextStrokes } from '../../../src/plan/next-strokes.ts';
import { reasonToLeave, stepOf, unitsOf } from '../../../src/plan/step.ts';
import { strokeLimits } from '../../../src/plan/stroke-limits.ts';
import { targetFromReed, targetFromSeveral, type Target } from '../../../src/plan/target.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const floorsOf = (floorMm: number | null): FloorTable => ({
  fromTipMm: [0, 30],
  across: [0, 1],
  floorMm: [
    [floorMm, floorMm],
    [floorMm, floorMm],
  ],
});
/** A map 0.25 mm by 0.1 half-widths, with thicknesses by place; 4 mm half-width makes 0.4 mm of a column. */
const ysMm = Array.from({ length: 21 }, (_, i) => 5 + i / 4);
const us = Array.from({ length: 11 }, (_, j) => (j - 5) / 10);
const half = () => 4;
const mapOf = (
  thicknessMm: (row: number, column: number) => number,
  more: { excessMm?: number; uMm?: number; told?: number } = {},
) => {
  const { excessMm = 0.0601, uMm = 0.001, told = 5 } = more;
  const over = (value: (row: number, column: number) => number) =>
    Float64Array.from({ length: ysMm.length * us.length }, (_, k) =>
      value(Math.floor(k / us.length), k % us.length),
    );
  return {
    ...{ ysMm, us, thicknessMm: over(thicknessMm) },
    ...{ valuesMm: over(() => excessMm), uMm: over(() => uMm), told: over(() => told) },
    thicknessUMm: over(() => 0.01),
  } as unknown as ExcessMap;
};
const MIDDLE = 10 * us.length + 5;

describe('the room above a floor', () => {
  it('keeps 1.645 standard uncertainties, one-sided 95 % of a normal distribution, from it', () => {
    const room = roomAbove(
      mapOf(() => 0.5),
      floorsOf(0.4),
      half,
    );
    expect(room.clearMm[MIDDLE]).toBeCloseTo(0.1, 12);
    expect(room.mm[MIDDLE]).toBeCloseTo(0.1 - 1.645 * 0.01, 12);
    expect(room.doubtful[MIDDLE]).toBe(0);
  });

  it('is in doubt where the thickness clears the floor and its lower limit does not', () => {
    const doubtful = (floorMm: number) =>
      roomAbove(
        mapOf(() => 0.5),
        floorsOf(floorMm),
        half,
      ).doubtful[MIDDLE];
    // 0.5 - 0.01645 = 0.48355
    expect([0.483, 0.484, 0.499, 0.501].map(doubtful)).toEqual([0, 1, 1, 0]);
    expect(
      roomAbove(
        mapOf(() => 0.5),
        floorsOf(null),
        half,
      ),
    ).toMatchObject({ mm: expect.anything() as unknown });
    expect(
      roomAbove(
        mapOf(() => 0.5),
        floorsOf(null),
        half,
      ).mm[MIDDLE],
    ).toBe(Infinity);
  });

  it('is that of the mean over a patch of one millimetre, where that is less', () => {
    // A ridge 0.1 higher: beside it, 2 rows each way and 1 column each way lie within half a millimetre.
    const alone = (row: number, column: number) => (row === 10 && column === 5 ? 0.6 : 0.5);
    const patch = 0.5 + 0.1 / 15;
    expect(roomAbove(mapOf(alone), floorsOf(0.4), half).clearMm[MIDDLE]).toBeCloseTo(patch - 0.4, 12);
    // What lies beyond does not count.
    const beyond = (row: number, column: number) =>
      Math.abs(row - 10) > 2 || Math.abs(column - 5) > 1 ? 0.3 : 0.5;
    expect(roomAbove(mapOf(beyond), floorsOf(0.4), half).clearMm[MIDDLE]).toBeCloseTo(0.1, 12);
  });

  it('is that of the place itself in a groove', () => {
    const groove = (row: number, column: number) => (row === 10 && column === 5 ? 0.45 : 0.5);
    expect(roomAbove(mapOf(groove), floorsOf(0.4), half).clearMm[MIDDLE]).toBeCloseTo(0.05, 12);
  });
});

describe('a step', () => {
  const zone = { ...rectangleZone('heart', 4, 11), title: 'Heart' };
  const read = new Uint8Array(ysMm.length * us.length).fill(1);
  const stepFor = (map: ExcessMap, excess: { valueMm: number; uMm: number }, floors = floorsOf(null)) => {
    const limits = strokeLimits({ map, floors, closed: [], read, halfWidthMm: half, marginMm: 2 });
    return stepOf(unitsOf(zone, 'A', limits), () => excess);
  };
  const thick = () => 0.5;

  it('says to stop and read where what would be left is no larger than its doubt at 95 %', () => {
    // Half of 0.06 is taken; 0.03 is left, which is 1.959964 times 0.0153064.
    const stops = (uMm: number) => stepFor(mapOf(thick), { valueMm: 0.06, uMm })!.stopAndRead;
    expect([0.0153, 0.01531].map(stops)).toEqual([false, true]);
  });

  it('takes at most half of the excess, in amounts that a hand can aim at, and never more than three hundredths', () => {
    const takes = (excessMm: number) =>
      stepFor(mapOf(thick, { excessMm }), { valueMm: excessMm, uMm: 0.001 })?.takeMm;
    expect([0.2, 0.061, 0.059, 0.041, 0.039, 0.029, 0.021, 0.019, 0.0101, 0.0099].map(takes)).toEqual([
      ...[0.03, 0.03, 0.02, 0.02, 0.015, 0.01, 0.01, 0.005, 0.005],
      undefined,
    ]);
  });

  it('leaves no more than one place in twenty under the target', () => {
    // 0.0601 less 0.03 is 1.645 times 0.0183: one in twenty of a normal distribution lies below.
    const takes = (uMm: number) => stepFor(mapOf(thick, { uMm }), { valueMm: 0.06, uMm: 0.001 })!.takeMm;
    expect([0.0182, 0.0184].map(takes)).toEqual([0.03, 0.02]);
  });

  it('weighs by its share of the thickness there', () => {
    expect(stepFor(mapOf(thick), { valueMm: 0.06, uMm: 0.001 })!.effect).toBeCloseTo(0.0601 / 0.5, 9);
  });

  it('takes less where the floor is near', () => {
    const takes = (floorMm: number) =>
      stepFor(mapOf(thick), { valueMm: 0.06, uMm: 0.001 }, floorsOf(floorMm))?.takeMm;
    // 0.5 - 0.01645 = 0.48355 may be reached, and a border of 0.0015 is kept.
    expect([0.452, 0.4521, 0.4619, 0.4621, 0.48].map(takes)).toEqual([0.03, 0.02, 0.02, 0.015, undefined]);
  });
});

describe('what is over and is left', () => {
  const heart = { ...rectangleZone('heart', 4, 11), title: 'Heart' };
  const planned = (
    map: ExcessMap,
    floorMm: number | null,
    closed: readonly number[] = [],
    tipLast = true,
  ) => {
    const tip = { ...rectangleZone('tip', 4, 7), title: 'Tip' };
    const blend = { ...rectangleZone('blend', 7, 11), title: 'Blend' };
    return nextStrokes({
      excess: { A: { ...map, sure: new Uint8Array(ysMm.length * us.length) } },
      floors: floorsOf(floorMm),
      geometry: { halfWidthMm: half } as never,
      closed: closed.flatMap((fromTipMm) => us.map((across) => ({ blade: 'A' as const, fromTipMm, across }))),
      read: () => new Uint8Array(ysMm.length * us.length).fill(1),
      zones: [tip, blend],
      meanExcess: () => ({ valueMm: 0.06, uMm: 0.001 }),
      tipLast,
    });
  };
  const reasons = (floorMm: number | null, closed: readonly number[] = []) =>
    planned(
      mapOf(() => 0.5),
      floorMm,
      closed,
    ).left.map(({ zone, blade, side, reason }) => [zone, blade, side, reason]);
  const both = (reason: string) => [
    ['tip', 'A', 'both', reason],
    ['blend', 'A', 'both', reason],
  ];

  it('is closed, or has no room over its floor, or none for sure', () => {
    // The least amount, 0.005 mm, and a border of 0.0015 over a floor; 0.01645 mm more, which doubt takes.
    expect(reasons(0.4936)).toEqual(both('floor'));
    expect(reasons(0.4934)).toEqual(both('doubt'));
    expect(reasons(0.4771)).toEqual(both('doubt'));
    expect(reasons(0.477)).toEqual([]);
    expect(
      reasons(
        0.47,
        ysMm.filter((_, i) => i % 4 === 0),
      ),
    ).toEqual(both('closed'));
    const limits = {
      ...{ map: mapOf(() => 0.5), floors: floorsOf(0.4936), closed: [], halfWidthMm: half, marginMm: 2 },
      read: new Uint8Array(ysMm.length * us.length).fill(1),
    };
    expect(unitsOf(heart, 'A', strokeLimits(limits)).map(reasonToLeave)).toEqual(['floor']);
  });

  it('comes after what is worked: the larger share first, the tip last', () => {
    const thinner = mapOf((row) => (ysMm[row]! < 7 ? 0.3 : 0.5));
    const zones = (tipLast: boolean) =>
      planned(thinner, null, [], tipLast).steps.map(({ zone, takeMm }) => [zone, takeMm]);
    expect(zones(true)).toEqual([
      ['blend', 0.03],
      ['tip', 0.03],
    ]);
    expect(zones(false)).toEqual([
      ['tip', 0.03],
      ['blend', 0.03],
    ]);
  });
});

it('keeps the margin from a lack that may be sure between two places of the grid, though it is at none', () => {
  const toldIn = (share: number) => ({
    ...mapOf(() => 0.5),
    told: Float64Array.from({ length: ysMm.length * us.length }, (_, k) => (k === MIDDLE ? share : 5)),
  });
  const read = new Uint8Array(ysMm.length * us.length).fill(1);
  const apartMm = (share: number) =>
    strokeLimits({
      map: toldIn(share),
      floors: floorsOf(null),
      closed: [],
      read,
      halfWidthMm: half,
      marginMm: 2,
    }).apartMm[MIDDLE + 4 * us.length]!;
  // Four rows of 0.25 mm further down: 1 mm from it, or a little less where its border is drawn, less the margin of 2 mm.
  expect(apartMm(-0.98)).toBeGreaterThan(-1.25);
  expect(apartMm(-0.98)).toBeLessThanOrEqual(-1);
  expect(apartMm(-0.8)).toBe(Infinity);
});

describe('excess over a favourite', () => {
  const m142 = { benched: scenarioReed('M-142'), pass: 3 };
  const k117 = { benched: scenarioReed('K-117'), pass: 0 };
  const grid = {
    ysMm: Array.from({ length: 21 }, (_, i) => i),
    us: Array.from({ length: 21 }, (_, j) => (j - 10) / 10),
  };
  const target = targetFromReed(k117, grid);
  const { model } = m142.benched;
  const excess = excessOver(model!, 3, target).A!;
  const own = thicknessMap(model!, 'A', 3, grid);
  const theirs = thicknessMap(k117.benched.model!, 'A', 0, grid);

  it('has the favourite’s own doubt besides the reed’s, independent of each other', () => {
    own.uMm.forEach((uMm, i) =>
      expect(excess.uMm[i]).toBeCloseTo(Math.sqrt(uMm ** 2 + theirs.uMm[i]! ** 2), 12),
    );
    const place = [{ blade: 'A', fromTipMm: 10, across: 0, weight: 1 }] as const;
    const at = 10 * 21 + 10;
    expect(meanOverTarget(m142, target, place).uMm).toBeCloseTo(Math.hypot(own.uMm[at]!, theirs.uMm[at]!), 9);
    expect(meanOverTarget(m142, target, place).valueMm).toBeCloseTo(
      own.valuesMm[at]! - theirs.valuesMm[at]!,
      9,
    );
  });

  it('is sure beyond the factor of as many patches of 2 mm by two fifths of the half-width as the map has', () => {
    // Ten along, five across: 50. Python 3.11, statistics.NormalDist().inv_cdf((1 + 0.95 ** (1 / 50)) / 2): 3.2834798.
    expect(excess.factor()).toBeCloseTo(3.2834798, 6);
    excess.told.forEach((share, i) => {
      if (Number.isFinite(share))
        expect(share).toBeCloseTo(excess.valuesMm[i]! / (3.2834798 * excess.uMm[i]!), 4);
    });
  });

  it('is the maker’s own variety within one standard deviation of what favourites differ by', () => {
    const spreadMm = excess.valuesMm.map((value, i) => Math.abs(value) * (i % 2 === 0 ? 1.001 : 0.999));
    const wide: Target = { ...target, blades: { A: { ...target.blades.A!, spreadMm } } };
    const { sure, withinVariety } = excessOver(model!, 3, wide).A!;
    let told = 0;
    excess.sure.forEach((yes, i) => {
      told += yes;
      expect([sure[i], withinVariety[i]]).toEqual(yes === 0 ? [0, 0] : i % 2 === 0 ? [0, 1] : [1, 0]);
    });
    expect(told).toBeGreaterThan(20);
  });

  it('has half the variance from the mean of two favourites, and at least what makers’ reeds usually differ by', () => {
    const { uMm, spreadMm, meanMm } = targetFromSeveral('both', [target, target]).blades.A!;
    theirs.uMm.forEach((u, i) => {
      expect(uMm[i]).toBeCloseTo(u / Math.SQRT2, 12);
      // Four reeds' worth of 0.015 mm and one degree of freedom that says 0: 0.015 sqrt(4 / 5).
      if (Number.isFinite(meanMm[i])) expect(spreadMm[i]).toBeCloseTo(0.0134164, 7);
    });
  });
});
