import { describe, expect, it } from 'vitest';
import { floorAt } from '../../../src/blade/floors.ts';
import { roomAbove } from '../../../src/plan/floor-room.ts';
import { knifeYield, strokesFor, yieldIn, type YieldEntry } from '../../../src/plan/knife-yield.ts';
import { spokenFor } from '../../../src/plan/was-read.ts';

describe('what a stroke of a knife takes', () => {
  const entry = (region: string, strokes: number, valueMm: number, uMm: number): YieldEntry => ({
    region,
    strokes,
    removed: { valueMm, uMm },
  });
  const worked = [
    entry('A', 10, 0.02, 0.002),
    entry('A', 20, 0.05, 0.004),
    entry('B', 10, 0.01, 0.002),
    entry('C', 5, 0.012, 0.003),
  ];

  it('is drawn from its regions towards the knife, by a twin in Python', () => {
    // DerSimonian & Laird 1986 with a fifth of the yield from day to day, and moments between regions drawn towards
    // (0.25 of the yield) squared, worth three regions: numbers from an independent script.
    const result = knifeYield(worked);
    if (!result.known) throw new Error(result.sentence);
    const { overall, regions } = result;
    expect(overall.perStrokeMm).toBeCloseTo(0.0018396998692518, 14);
    expect(overall.uMm).toBeCloseTo(0.00069168798024452, 14);
    expect(overall.entries).toBe(4);
    for (const [region, perStrokeMm, uMm, entries] of [
      ['A', 0.0021580219265189644, 0.00027828193725388275, 2],
      ['B', 0.0013075346516163702, 0.00036801914876363414, 1],
      ['C', 0.0020535430296201723, 0.000505355256381838, 1],
    ] as const) {
      const found = regions.get(region)!;
      expect(found.perStrokeMm, region).toBeCloseTo(perStrokeMm, 14);
      expect(found.uMm, region).toBeCloseTo(uMm, 14);
      expect(found.entries).toBe(entries);
    }
  });

  it('is told from three pieces of work on, each of strokes and a doubt', () => {
    expect([knifeYield(worked.slice(0, 2)).known, knifeYield(worked.slice(0, 3)).known]).toEqual([
      false,
      true,
    ]);
    expect(() => knifeYield([worked[0]!, entry('B', 0, 0.01, 0.001)])).toThrow('entries[1].strokes');
    expect(() => knifeYield([entry('B', 1, 0.01, 0)])).toThrow('entries[0].removed.uMm');
  });

  it('in a region that was not worked is that of the knife', () => {
    const result = knifeYield(worked);
    if (!result.known) throw new Error(result.sentence);
    expect(yieldIn(result, 'A')).toBe(result.regions.get('A'));
    expect(yieldIn(result, 'heart')).toBe(result.overall);
    expect(yieldIn(knifeYield([]), 'A')).toBeUndefined();
    expect(yieldIn(undefined, 'A')).toBeUndefined();
  });

  it('at its upper 90 % limit never takes more than is wanted', () => {
    // 0.002 + 1.645 x 0.001 = 0.003645 mm a stroke: 0.0364 mm are nine strokes, 0.0365 mm ten.
    const of = { perStrokeMm: 0.002, uMm: 0.001, entries: 3 };
    expect([strokesFor(0.0364, of), strokesFor(0.0365, of), strokesFor(0, of)]).toEqual([9, 10, 1]);
  });
});

describe('the room above a floor', () => {
  const floors = {
    fromTipMm: [0, 10],
    across: [0, 0.5],
    floorMm: [
      [0.4, 0.4],
      [0.4, null],
    ],
  };
  // Three places 0.3 mm apart on a blade 6 mm wide: each has its neighbours in its patch of 1 mm, not the place beyond.
  const thicknessMm = Float64Array.of(0.44, 0.5, 0.47);
  const map = {
    ...{ ysMm: [0], us: [-0.1, 0, 0.1] },
    valuesMm: new Float64Array(3),
    thicknessMm,
    thicknessUMm: Float64Array.of(0.01, 0.02, 0.05),
  } as unknown as Parameters<typeof roomAbove>[0];
  const { mm, clearMm, doubtful } = roomAbove(map, floors, () => 3);

  it('is that of the place or of the patch about it, whichever is thinner', () => {
    // 0.44 itself; (0.44 + 0.5 + 0.47) / 3 = 0.47; 0.47 itself, below (0.5 + 0.47) / 2.
    for (const [i, clear] of [0.04, 0.07, 0.07].entries()) expect(clearMm[i]).toBeCloseTo(clear, 12);
  });

  it('is less by 1.645 standard uncertainties, and closed by doubt where that takes all of it', () => {
    const expected = [0.04 - 0.01645, 0.07 - 0.0329, 0.07 - 0.08225];
    for (const [i, room] of expected.entries()) expect(mm[i]).toBeCloseTo(room, 12);
    expect([...doubtful]).toEqual([0, 0, 1]);
  });

  it('has no limit where there is no floor', () => {
    expect(floorAt(floors, 5, 0.25)).toBeUndefined();
    expect(
      floorAt(
        {
          ...floors,
          floorMm: [
            [0.4, 0.5],
            [0.6, 0.8],
          ],
        },
        2.5,
        -0.25,
      ),
    ).toBeCloseTo(0.5125, 12);
    const open = roomAbove({ ...map, ysMm: [10], us: [0.4, 0.5, 0.6] }, floors, () => 3);
    expect([...open.mm]).toEqual([Infinity, Infinity, Infinity]);
  });
});

it('lets a reading speak for 2.1 mm along and 0.31 across, on its own blade', () => {
  const grid = { ysMm: [7.89, 7.9, 10, 12.1, 12.11], us: [-0.32, -0.31, 0, 0.31, 0.32] };
  const reading = { blade: 'A', fromTipMm: 10, across: 0 } as const;
  const none = [0, 0, 0, 0, 0];
  const row = [0, 1, 1, 1, 0];
  expect([...spokenFor([reading], 'A', grid)]).toEqual([none, row, row, row, none].flat());
  expect(spokenFor([reading], 'B', grid).some(Boolean)).toBe(false);
});
