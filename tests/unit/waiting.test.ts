import { describe, expect, it } from 'vitest';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import type { Use } from '../../shared/room.ts';
import type { Round } from '../../shared/round.ts';
import { equalLabels } from '../../src/reed/equal-names.ts';
import { hoursPlayed, timesPlayed, waitingReeds } from '../../src/reed/waiting.ts';

const reed = (id: string, state: Reed['state'] = 'playing') => ({ id, label: id, state }) as Reed;
const pass = (reedId: string, takenAt: string) => ({ reedId, takenAt }) as Pass;
const use = (reedId: string, at: string, hours: number) => ({ reedId, at, minutes: 60 * hours }) as Use;
const trial = (reedId: string, playedAt: string, minutes?: number) =>
  ({ reedId, playedAt, ...(minutes !== undefined && { minutes }) }) as Trial;
const round = (reedId: string, closedAs?: string) =>
  ({ reedId, stations: new Array(44), ...(closedAs && { closedAs }) }) as unknown as Round;
const DAY = (day: number) => `2026-03-${String(day).padStart(2, '0')}T10:00:00+01:00`;

describe('what waits for the maker', () => {
  it('puts a round half done before all else', () => {
    const waiting = waitingReeds({
      reeds: [reed('a'), reed('b')],
      passes: [pass('b', DAY(1))],
      rounds: [round('b'), round('a', 'closed')],
      uses: [],
      trials: [],
    });
    expect(waiting.map(({ kind, reed: { id }, amount }) => [kind, id, amount])).toEqual([
      ['round', 'b', 44],
      ['unread', 'a', 0],
    ]);
  });

  it('asks to read a reed again after ten hours of playing since it was read', () => {
    const uses = [use('a', DAY(1), 30), use('a', DAY(5), 6), use('a', DAY(6), 5), use('b', DAY(5), 9)];
    const waiting = waitingReeds({
      reeds: [reed('a'), reed('b')],
      passes: [pass('a', DAY(3)), pass('b', DAY(3))],
      rounds: [],
      uses,
      trials: [trial('a', DAY(7), 90)],
    });
    expect(waiting.map(({ kind, reed: { id }, amount }) => [kind, id, amount])).toEqual([
      ['again', 'a', 12.5],
    ]);
    expect(hoursPlayed(uses, 'a')).toBe(41);
    // The minutes of a trial are played hours too; a trial without minutes is none.
    const trials = [trial('a', DAY(7), 90), trial('a', DAY(8)), trial('b', DAY(7), 60)];
    expect(hoursPlayed(timesPlayed(uses, trials), 'a')).toBe(42.5);
  });

  it('leaves retired reeds in peace', () => {
    expect(
      waitingReeds({ reeds: [reed('a', 'retired')], passes: [], rounds: [], uses: [], trials: [] }),
    ).toEqual([]);
  });
});

it('tells which reeds bear a label that an earlier one bears', () => {
  const labelled = (id: string, label: string) => ({ ...reed(id), label });
  const all = [labelled('c', 'K-1'), labelled('a', 'K-1'), labelled('b', 'K-2'), labelled('d', 'K-1')];
  expect(equalLabels(all).flatMap(({ reeds }) => reeds.slice(1).map(({ id }) => id))).toEqual(['c', 'd']);
});
