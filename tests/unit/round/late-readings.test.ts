import { expect, it } from 'vitest';
import type { Station } from '../../../shared/grid.ts';
import type { Act, Round } from '../../../shared/round.ts';
import { lateActs, lastCounts } from '../../../src/ledger/late-acts.ts';
import { decided, lateReadings, withLate } from '../../../src/round/late-readings.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { passFromRound } from '../../../src/round/round-to-pass.ts';
import type { Pass } from '../../../shared/pass.ts';

const id = (n: number) => `018f3a5c-0000-7000-8000-${String(n).padStart(12, '0')}`;
const [HERE, THERE] = [id(1), id(2)];
const at = '2026-03-01T09:00:00+01:00';
const place = (fromTipMm: number): Station => ({ blade: 'A', fromTipMm, across: 0, role: 'station' });

const taken = (
  n: number,
  writer: string,
  seq: number,
  fromTipMm: number,
  hundredths: number,
  replaces?: number,
): Act => ({
  act: 'taken',
  id: id(100 + n),
  roundId: id(9),
  deviceId: writer,
  seq,
  at,
  station: place(fromTipMm),
  thicknessMm: hundredths / 100,
  flag: 'ok',
  ...(replaces !== undefined && { replaces: id(100 + replaces) }),
});

const stamp = { formatVersion: 1 as const, versions: { [HERE]: 1 }, createdAt: at, updatedAt: at };
/** Read at 2 and 4 mm when it was finished; 6 mm was skipped. */
const seen = [taken(1, HERE, 1, 2, 20), taken(2, HERE, 2, 4, 30)];
const open: Round = {
  ...stamp,
  kind: 'round',
  id: id(9),
  reedId: id(8),
  passIndex: 3,
  plan: 'Spot',
  stations: [place(2), place(4), place(6)],
  about: { note: 'after the tip' },
  startedAt: at,
};
const round: Round = { ...open, closedAs: id(7), closedWith: lastCounts(seen) };
const pass: Pass = { ...stamp, id: id(7), ...passFromRound(open, foldRound(open, seen)) };

const values = ({ readings }: Pass, fromTipMm: number) =>
  readings
    .filter((reading) => reading.fromTipMm === fromTipMm)
    .map(({ thicknessMm, repeat }) => [Math.round((thicknessMm ?? 0) * 100), repeat]);

it('knows as late what no writer had counted when the round was finished, and nothing of a round that is open', () => {
  const late = [taken(3, HERE, 3, 6, 40), taken(4, THERE, 1, 6, 41)];
  expect(lateActs(round, [...seen, ...late])).toEqual(late);
  expect(lateActs(open, [...seen, ...late])).toEqual([]);
  expect(lateActs(decided(round, [...seen, ...late]), [...seen, ...late])).toEqual([]);
});

it('takes late readings in as if they had been there: a place not read, a repeat, one that stands in for another', () => {
  const late = [taken(3, THERE, 3, 6, 40), taken(4, THERE, 4, 4, 31), taken(5, THERE, 5, 2, 22, 1)];
  const all = [...seen, ...late];
  const now = withLate(pass, round, all);
  expect([2, 4, 6].map((mm) => values(now, mm))).toEqual([
    [[22, 0]],
    [
      [30, 0],
      [31, 1],
    ],
    [[40, 0]],
  ]);
  expect(now).toEqual({ ...pass, ...passFromRound(open, foldRound(open, all)) });
  expect(lateReadings(round, all).places.map(({ station }) => station.fromTipMm)).toEqual([2, 4, 6]);
});

it('leaves what the maker has changed in the pass since, and puts late readings beside it', () => {
  const late = [taken(3, THERE, 3, 4, 31), taken(4, THERE, 4, 2, 22, 1)];
  const changed = {
    ...pass,
    readings: pass.readings.map((one) => (one.fromTipMm < 6 ? { ...one, thicknessMm: 0.25 } : one)),
  };
  const now = withLate(changed, round, [...seen, ...late]);
  expect([2, 4].map((mm) => values(now, mm))).toEqual([
    [
      [25, 0],
      [22, 1],
    ],
    [
      [25, 0],
      [31, 1],
    ],
  ]);
});

it('takes back in the pass what was taken back in the round, and adds late notes', () => {
  const late: Act[] = [
    { act: 'withdrawn', id: id(150), roundId: id(9), deviceId: THERE, seq: 5, at, of: id(102) },
    { act: 'noted', id: id(151), roundId: id(9), deviceId: THERE, seq: 6, at, text: 'a chip' },
  ];
  const now = withLate(pass, round, [...seen, ...late]);
  expect(values(now, 4)).toEqual([]);
  expect(now.note).toBe('after the tip\na chip');
});
