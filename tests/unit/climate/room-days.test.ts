import { describe, expect, it } from 'vitest';
import { dayNumber, dayOf } from '../../../shared/moment.ts';
import type { AirEntry } from '../../../src/climate/air-log.ts';
import { roomDays } from '../../../src/climate/room-days.ts';

const TODAY = dayNumber('2026-11-29');

function note(daysAgo: number, humidityPct: number, own: Partial<AirEntry> = {}): AirEntry {
  return {
    at: `${dayOf(TODAY - daysAgo)}T09:00:00.000+01:00`,
    from: 'room',
    place: 'the desk',
    air: { temperatureC: 20, humidityPct, elevationM: 0 },
    temperatureAssumed: false,
    heightAssumed: true,
    ...own,
  };
}

describe('the air of a room by day', () => {
  it('counts days as calendars do', () => {
    expect(dayNumber('1970-01-01')).toBe(0);
    // A leap year lies between: 366 days.
    expect(dayNumber('2025-01-01') - dayNumber('2024-01-01')).toBe(366);
    expect(dayNumber('2026-11-29T23:59:00.000-08:00')).toBe(TODAY);
    expect(dayOf(TODAY)).toBe('2026-11-29');
  });

  it('has the last note of every day, and a gap where nothing was read', () => {
    const { days } = roomDays(
      [note(3, 40), note(1, 50), { ...note(1, 60), at: `${dayOf(TODAY - 1)}T20:00:00.000+01:00` }],
      TODAY - 3,
      TODAY,
    );
    expect(days.map(({ entry }) => entry?.air.humidityPct)).toEqual([40, undefined, 60, undefined]);
  });

  it('says what is usual from ten days on: eight of ten lie within', () => {
    const of = (count: number) =>
      roomDays(
        Array.from({ length: count }, (_, k) => note(k, 41 + k)),
        TODAY - 5,
        TODAY,
      );
    expect(of(9).usual).toBeUndefined();
    // 41 to 51: the tenth and ninetieth of a hundred stand at the second and the tenth of eleven.
    expect(of(11).usual).toEqual({ low: 42, high: 50, days: 11 });
    const old = roomDays(
      [note(90, 10), ...Array.from({ length: 10 }, (_, k) => note(k, 50))],
      TODAY - 5,
      TODAY,
    );
    expect(old.usual).toEqual({ low: 50, high: 50, days: 10 });
  });

  it('keeps a stay elsewhere apart from the room', () => {
    const hall = { place: 'the hall', from: 'trial' as const };
    const { days, away } = roomDays(
      [note(4, 50), note(3, 70, hall), note(2, 74, hall), note(1, 52), note(0, 60, hall)],
      TODAY - 4,
      TODAY,
    );
    expect(days.map(({ entry }) => entry?.air.humidityPct)).toEqual([
      50,
      undefined,
      undefined,
      52,
      undefined,
    ]);
    expect(away).toEqual([
      { from: TODAY - 3, to: TODAY - 2, place: 'the hall', humidityPct: 72 },
      { from: TODAY, to: TODAY, place: 'the hall', humidityPct: 60 },
    ]);
  });
});
