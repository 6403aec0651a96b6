import { describe, expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import { nearFloors, standingReadings } from '../../../src/answers/standing-readings.ts';
import type { FittedReed } from '../../../src/answers/fitted-reed.ts';
import { LONG_SCRAPE } from '../../../src/blade/starting-styles.ts';
import { assembleReed } from '../../../src/reed/assemble.ts';

// Invented floors: 0.1 mm at the tip, 0.5 mm at 20 mm, half of that at the edges; 0.3 at 10 mm in the middle, 0.225 halfway out.
const floors = {
  fromTipMm: [0, 20],
  across: [0, 1],
  floorMm: [
    [0.1, 0.05],
    [0.5, 0.25],
  ],
};
const reading = (fromTipMm: number, across: number, thicknessMm: number) => ({
  ...{ blade: 'A', fromTipMm, across, thicknessMm, repeat: 0, flag: 'ok', role: 'station' },
});
const passOf = (index: number, overallLengthMm: number, ...readings: readonly object[]) =>
  ({ index, overallLengthMm, threadMm: 47, remedies: [], readings }) as unknown as Pass;
const reedOf = (...passes: Pass[]) => {
  const style = { ...LONG_SCRAPE, floors } as never;
  const assembled = assembleReed({
    reed: { label: 'invented', styleId: 'long-scrape' } as Reed,
    passes,
    style,
  });
  return { assembled } as FittedReed;
};

describe('a reading near its floor', () => {
  it('is one that stands up to 0.015 mm above it, or under it, the nearest first', () => {
    const reed = reedOf(
      passOf(
        0,
        70,
        reading(10, 0, 0.315),
        reading(10, 0.5, 0.241),
        reading(5, -0.5, 0.15),
        reading(15, 1, 0.3),
        reading(25, 0, 0.52),
      ),
    );
    // Floors there: 0.3, 0.225, 0.2 * 0.75 = 0.15, 0.2; beyond the table its edge holds, 0.5.
    const near = nearFloors(reed, 0);
    expect(near.map(({ reading: { fromTipMm } }) => fromTipMm)).toEqual([5, 10]);
    expect(near.map(({ floorMm }) => floorMm)).toEqual([expect.closeTo(0.15, 12), expect.closeTo(0.3, 12)]);
    expect(near.map(({ marginMm }) => marginMm)).toEqual([expect.closeTo(0, 12), expect.closeTo(0.015, 12)]);
  });

  it('is not one that a newer reading of the place has replaced', () => {
    const then = passOf(0, 70, reading(10, 0, 0.3), reading(12, 0, 0.3));
    const now = passOf(1, 70, reading(10.5, 0.1, 0.4));
    expect(nearFloors(reedOf(then, now), 1).map(({ reading: { fromTipMm } }) => fromTipMm)).toEqual([12]);
  });
});

describe('readings that stand', () => {
  const places = (then: object, ...now: object[]) =>
    standingReadings(reedOf(passOf(0, 70, then), passOf(1, 70, ...now)), 1).map(
      ({ fromTipMm, across, pass }) => [fromTipMm, across, pass],
    );

  it('give way to newer ones within 0.6 mm along and 0.2 across, not beyond', () => {
    expect(places(reading(10, 0, 0.3), reading(10.59, 0.19, 0.3))).toEqual([[10.59, 0.19, 1]]);
    expect(places(reading(10, 0, 0.3), reading(10.61, 0, 0.3))).toHaveLength(2);
    expect(places(reading(10, 0, 0.3), reading(10, 0.21, 0.3))).toHaveLength(2);
  });

  it('move towards the tip by what was clipped, and go where they were cut off', () => {
    const reed = reedOf(
      passOf(0, 70, reading(10, 0, 0.3), reading(0.3, 0, 0.1)),
      passOf(1, 69.5, reading(15, 0, 0.4)),
    );
    const standing = standingReadings(reed, 1).map(({ fromTipMm, thicknessMm }) => [fromTipMm, thicknessMm]);
    expect(standing).toEqual([
      [expect.closeTo(9.5, 9), 0.3],
      [15, 0.4],
    ]);
  });
});
