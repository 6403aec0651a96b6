import { describe, expect, it } from 'vitest';
import type { Zone } from '../../../shared/style.ts';
import { zonesSchema } from '../../../shared/zones.ts';
import { floorAt } from '../../../src/blade/floors.ts';
import { LONG_SCRAPE } from '../../../src/blade/starting-styles.ts';
import {
  drawnZone,
  isOnBothSides,
  withCorner,
  withCornerAfter,
  withoutCorner,
  zoneName,
  zoneProblem,
} from '../../../src/blade/edit-zone.ts';
import { ownStyle } from '../../../src/blade/own-style.ts';
import { withZoneFloor } from '../../../src/blade/zone-floor.ts';

const zone = (name: string) => LONG_SCRAPE.zones.find((one) => one.name === name)!;
const FIRST = { outline: 1, corner: 0 };

describe('a zone that is drawn', () => {
  it('lies on both sides alike away from the middle, and is one piece over it', () => {
    const beside = drawnZone('Shoulder', [], {
      from: { fromTipMm: 18, across: 0.7 },
      to: { fromTipMm: 16, across: 0.3 },
    });
    expect(isOnBothSides(beside)).toBe(true);
    expect(beside.outlines[1]!.map(({ fromTipMm, across }) => [fromTipMm, across])).toEqual([
      [16, 0.3],
      [16, 0.7],
      [18, 0.7],
      [18, 0.3],
    ]);
    const over = drawnZone('Shoulder', [], {
      from: { fromTipMm: 16, across: -0.3 },
      to: { fromTipMm: 18, across: 0.3 },
    });
    expect(over.outlines).toHaveLength(1);
    expect(zonesSchema.shape.zones.safeParse([beside, over]).success).toBe(true);
  });

  it('has a name for files that no other has', () => {
    expect(zoneName('Rücken, hinten', [])).toBe('rucken-hinten');
    expect(zoneName('7', [])).toBe('zone');
    const taken: string[] = [];
    for (let k = 0; k < 20; k++) taken.push(zoneName('A very long name of a zone on a blade', taken));
    expect(new Set(taken).size).toBe(20);
    for (const name of taken) expect(name).toMatch(/^[a-z][a-z-]{0,30}$/);
  });

  it('moves, adds and takes away corners, the other side with it, and leaves three', () => {
    const moved = withCorner(zone('rails'), FIRST, { fromTipMm: 8, across: 0.8 });
    expect(moved.outlines[1]![0]).toMatchObject({ fromTipMm: 8, across: 0.8 });
    expect(moved.outlines[0]![0]).toMatchObject({ fromTipMm: 8, across: -0.8 });
    const more = withCornerAfter(moved, FIRST);
    expect(more.outlines.map(({ length }) => length)).toEqual([5, 5]);
    expect(more.outlines[1]![1]).toMatchObject({ fromTipMm: 8.5, across: 0.9 });
    let few: Zone = more;
    for (let k = 0; k < 9; k++) few = withoutCorner(few, FIRST);
    expect(few.outlines.map(({ length }) => length)).toEqual([3, 3]);
  });

  it('may neither cross itself nor be nothing', () => {
    for (const one of LONG_SCRAPE.zones) expect(zoneProblem(one), one.name).toBeUndefined();
    const spine = zone('spine');
    const crossed = withCorner(spine, { outline: 0, corner: 0 }, { across: 0.9 });
    expect(zoneProblem(crossed)).toContain('crosses itself');
    const flat = { ...spine, outlines: [spine.outlines[0]!.map((corner) => ({ ...corner, across: 0 }))] };
    expect(zoneProblem(flat)).toContain('too small');
  });
});

it('a style is as the maker has it: zones and floors of its own, those of another style alone', () => {
  const zones = [
    drawnZone('Shoulder', [], { from: { fromTipMm: 16, across: 0 }, to: { fromTipMm: 18, across: 0.5 } }),
  ];
  const own = { floors: [], zones: [{ styleId: 'long-scrape', zones }] };
  expect(ownStyle('long-scrape', own).zones).toEqual(zones);
  expect(ownStyle('long-scrape', own).floors).toEqual(LONG_SCRAPE.floors);
  expect(ownStyle('short-scrape', own).zones.map(({ name }) => name)).toContain('catch');
});

describe('one floor all over a zone', () => {
  const { floors } = LONG_SCRAPE;

  it('holds in it from end to end and leaves other places as they were', () => {
    const set = withZoneFloor(floors, zone('spine'), 0.5);
    for (const y of [9, 12.3, 20]) expect(floorAt(set, y, 0), `${y} mm`).toBeCloseTo(0.5, 9);
    for (const [y, u] of [
      [8.8, 0],
      [5, 0],
      [12, 0.4],
      [2, 0.8],
    ] as const)
      expect(floorAt(set, y, u) ?? -1, `${y} mm, ${u}`).toBeCloseTo(floorAt(floors, y, u) ?? -1, 9);
  });

  it('gets a column where none goes through the zone', () => {
    const drawn = drawnZone('Shoulder', [], {
      from: { fromTipMm: 10, across: 0.5 },
      to: { fromTipMm: 12, across: 0.7 },
    });
    const set = withZoneFloor(floors, drawn, 0.45);
    expect(set.across).toEqual([0, 0.4, 0.6, 0.8]);
    expect(floorAt(set, 11, 0.6)).toBeCloseTo(0.45, 9);
    expect(floorAt(set, 11, -0.6)).toBeCloseTo(0.45, 9);
    expect(floorAt(set, 11, 0.4)).toBeCloseTo(floorAt(floors, 11, 0.4)!, 9);
  });

  it('is none where it is left blank', () => {
    expect(floorAt(withZoneFloor(floors, zone('tip'), undefined), 2, 0)).toBeUndefined();
  });
});
