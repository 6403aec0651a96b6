import { describe, expect, it } from 'vitest';
import { shareOver, unreadBetween, UNREAD_REMOVAL_SD_MM, withUnread } from '../../../src/figures/unread.ts';
import { removedByZone } from '../../../src/figures/removed.ts';
import { rectangleZone } from '../../../src/blade/zones.ts';
import { zoneArea } from '../../../src/figures/zone-mean.ts';
import { fitReed } from '../../../src/surface/fit-reed.ts';
import { readSample } from '../../read-sample.ts';

const [first, second] = readSample('plain').passes;
// The later pass as a maker reads it down the centre line alone.
const centre = { ...second!, readings: second!.readings.filter(({ across }) => across === 0) };
const pair = { before: 0, after: 1 };

describe('what came off a place that was not read', () => {
  it('is not known a half-width beside the only line that was read, and known on it', () => {
    const unread = unreadBetween([first!, centre], pair, 'A');
    expect(unread(10, 0)).toBe(0);
    // 0.25 across counts in full, 0.375 half, 0.5 not at all.
    expect(unread(10, 0.25)).toBeCloseTo(0, 12);
    expect(unread(10, -0.375)).toBeCloseTo(0.5, 12);
    expect(unread(10, 0.5)).toBe(1);
  });

  it('is known everywhere between the stations of two full passes', () => {
    const unread = unreadBetween([first!, second!], pair, 'B');
    for (let y = 0.5; y < 18; y += 0.25) for (let u = -0.9; u <= 0.9; u += 0.1) expect(unread(y, u)).toBe(0);
  });

  it('is as little known where only the later pass read, and after a clip by the cane, not the tip', () => {
    expect(unreadBetween([centre, second!], pair, 'A')(10, 0.8)).toBe(1);
    const tip = { ...first!, readings: first!.readings.filter(({ fromTipMm }) => fromTipMm <= 4) };
    const clipped = { ...second!, overallLengthMm: second!.overallLengthMm - 1 };
    // 4 mm is 3 mm from the new tip: 1.5 mm beyond counts in full.
    expect(unreadBetween([tip, clipped], pair, 'A')(4.5, 0)).toBeCloseTo(0, 12);
    expect(unreadBetween([tip, clipped], pair, 'A')(5.25, 0)).toBeCloseTo(0.5, 12);
  });

  it('adds one go with the knife to the doubt, in proportion', () => {
    expect(withUnread({ valueMm: 0.001, uMm: 0.003 }, 1).uMm).toBeCloseTo(Math.hypot(0.003, 0.012), 12);
    expect(withUnread({ valueMm: 0.001, uMm: 0.003 }, 0)).toEqual({ valueMm: 0.001, uMm: 0.003 });
  });

  it('is in the doubt of a zone by its share of the area', () => {
    const model = fitReed([first!, centre]);
    const zone = rectangleZone('back', 10, 16);
    const of = (passes: Parameters<typeof removedByZone>[3]) =>
      removedByZone(model, pair, [zone], passes).A!.get('back')!;
    const [known, guessed] = [of([first!, second!]), of([first!, centre])];
    const unread = unreadBetween([first!, centre], pair, 'A');
    const share = shareOver(zoneArea(zone, model.passes[1]!), unread);
    // From 0.375 outwards more than half is unread: 0.25 to 0.5 counts half, 0.5 to 1 in full, on either side.
    expect(share).toBeCloseTo(0.625, 1);
    expect(guessed.mean.uMm).toBeCloseTo(Math.hypot(known.mean.uMm, UNREAD_REMOVAL_SD_MM * share), 12);
    expect(guessed.notRead).toBe(true);
    expect(known.notRead).toBeUndefined();
  });
});
