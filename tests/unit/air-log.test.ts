import { describe, expect, it } from 'vitest';
import { makeId } from '../../shared/ids.ts';
import type { AirReading } from '../../shared/room.ts';
import { airLog, todayAndBefore } from '../../src/climate/air-log.ts';

let count = 0;
const air = (at: string, own: Partial<AirReading> = {}): AirReading => ({
  kind: 'air',
  formatVersion: 1,
  id: makeId(1_700_000_000_000, new Uint8Array(10).fill(count++)),
  versions: {},
  createdAt: at,
  updatedAt: at,
  at,
  temperatureC: 20,
  humidityPct: 50,
  ...own,
});
const log = (...readings: AirReading[]) => airLog({ air: readings, trials: [], passes: [] });

describe('the log of the air', () => {
  it('is in the order of time, whatever the zone it was written in', () => {
    const found = log(
      air('2026-01-02T08:00:00.000+02:00'),
      air('2026-01-02T06:30:00.000+00:00'),
      air('2026-01-01T10:00:00.000+00:00'),
    );
    expect(found.map(({ at }) => at.slice(8, 13))).toEqual(['01T10', '02T08', '02T06']);
  });

  it('leaves out what has no temperature or no humidity, and says where the height is assumed', () => {
    const found = log(
      air('2026-01-01T10:00:00.000+00:00', { humidityPct: undefined }),
      air('2026-01-02T10:00:00.000+00:00', { elevationM: 600 }),
      air('2026-01-03T10:00:00.000+00:00'),
    );
    expect(found.map(({ air: { elevationM }, heightAssumed }) => [elevationM, heightAssumed])).toEqual([
      [600, false],
      [0, true],
    ]);
  });

  it('holds today against about a day before, not against last week', () => {
    const today = air('2026-01-08T10:00:00.000+00:00');
    const hoursBefore = (hours: number) =>
      air(new Date(Date.parse(today.at) - hours * 3_600_000).toISOString());
    expect(todayAndBefore(log(hoursBefore(160), today)).before).toBeUndefined();
    expect(todayAndBefore(log(hoursBefore(1), today)).before).toBeUndefined();
    expect(todayAndBefore(log(hoursBefore(24), hoursBefore(1), today)).before?.at).toContain('2026-01-07T10');
    expect(todayAndBefore([])).toEqual({});
  });
});
