import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../shared/reading.ts';
import type { Act } from '../../../shared/round.ts';
import { historyAt, replacedBy, replacedInRound, withHistory } from '../../../src/round/replaced.ts';

const reading = (fromTipMm: number, thicknessMm: number, more: Partial<Reading> = {}): Reading => ({
  ...{ blade: 'A' as const, fromTipMm, across: 0, repeat: 0, flag: 'ok' as const, role: 'station' as const },
  thicknessMm,
  ...more,
});
const about = { at: '2026-11-29T10:00:00+01:00', how: 'sheet' as const };

describe('what a pass read before', () => {
  it('holds what was typed over, cleared or marked otherwise, and nothing that still stands', () => {
    const before = [reading(1, 0.61), reading(2, 0.2), reading(3, 0.3), reading(4, 0.4)];
    const after = [
      reading(1, 0.16),
      reading(3, 0.3, { flag: 'doubtful' }),
      reading(4, 0.4),
      reading(4, 0.42, { repeat: 1 }),
      reading(5, 0.5),
    ];
    const given = replacedBy(before, after, about);
    expect(given.map(({ was }) => was.map(({ fromTipMm, thicknessMm }) => [fromTipMm, thicknessMm]))).toEqual(
      [[[1, 0.61]], [[2, 0.2]], [[3, 0.3]]],
    );
    expect(given[0]).toMatchObject(about);
  });

  it('tells a place’s values from the latest on, and forgets the oldest of a thousand', () => {
    const entry = (value: number) => ({ ...about, was: [reading(1, value)] });
    const { replaced = [] } = withHistory(
      Array.from({ length: 1000 }, () => entry(0.1)),
      [entry(0.2), { ...about, was: [reading(2, 0.3)] }],
    );
    expect(replaced).toHaveLength(1000);
    const here = historyAt(replaced, { blade: 'A', fromTipMm: 1, across: 0 });
    expect(here).toHaveLength(999);
    expect(here[0]!.was[0]!.thicknessMm).toBe(0.2);
    expect(withHistory(undefined, [])).toEqual({});
  });
});

describe('what a round gave up', () => {
  const station = { blade: 'A' as const, fromTipMm: 1, across: 0, role: 'station' as const };
  const ids = Array.from({ length: 6 }, (_, k) => `01J000000000000000000000A${k}`);
  const act = (seq: number, more: object) =>
    ({
      id: ids[seq],
      roundId: ids[0],
      deviceId: ids[0],
      seq,
      at: `2026-11-29T10:0${seq}:00+01:00`,
      ...more,
    }) as Act;

  it('holds readings that were replaced or taken back, and when', () => {
    const taken = (seq: number, thicknessMm: number, replaces?: string) =>
      act(seq, { act: 'taken', station, thicknessMm, flag: 'ok', ...(replaces && { replaces }) });
    const log = [
      taken(1, 0.61),
      taken(2, 0.16, ids[1]),
      taken(3, 0.5),
      act(4, { act: 'withdrawn', of: ids[3] }),
    ];
    expect(
      replacedInRound(log).map(({ at, how, was }) => [at.slice(11, 16), how, was[0]!.thicknessMm]),
    ).toEqual([
      ['10:02', 'round', 0.61],
      ['10:04', 'round', 0.5],
    ]);
  });

  it('holds nothing of a reading whose replacement was taken back', () => {
    const log = [
      act(1, { act: 'taken', station, thicknessMm: 0.61, flag: 'ok' }),
      act(2, { act: 'taken', station, thicknessMm: 0.16, flag: 'ok', replaces: ids[1] }),
      act(3, { act: 'withdrawn', of: ids[2] }),
    ];
    expect(replacedInRound(log).map(({ was }) => was[0]!.thicknessMm)).toEqual([0.16]);
  });
});
