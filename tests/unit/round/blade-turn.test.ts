import { expect, it } from 'vitest';
import { bladeTurn } from '../../../src/round/blade-turn.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { makeId } from '../../../shared/ids.ts';
import type { Station } from '../../../shared/grid.ts';
import type { Act } from '../../../shared/round.ts';

const id = (n: number) => makeId(1.7e12 + n, new Uint8Array(10));
const station = (blade: 'A' | 'B', fromTipMm: number): Station => ({
  blade,
  fromTipMm,
  across: 0,
  role: 'station',
});
const taken = (one: Station, n: number): Act => ({
  act: 'taken',
  id: id(n),
  roundId: id(0),
  deviceId: id(0),
  seq: n,
  at: '2026-03-01T20:00:00Z',
  station: one,
  thicknessMm: 0.4,
  flag: 'ok',
});
const turnAfter = (stations: readonly Station[], n: number) =>
  bladeTurn(
    foldRound(
      { stations: [...stations] },
      stations.slice(0, n).map((one, i) => taken(one, i + 1)),
    ),
  );

const BLADE_BY_BLADE = [station('A', 1), station('A', 2), station('B', 1), station('B', 2)];

it('comes once, between the last place of a blade and the first of the other', () => {
  expect([0, 1, 2, 3, 4].map((n) => turnAfter(BLADE_BY_BLADE, n))).toEqual([
    undefined,
    undefined,
    'B',
    undefined,
    undefined,
  ]);
});

it('is not asked in a round that goes to and fro, nor in one of a single blade', () => {
  const toAndFro = [station('A', 1), station('B', 1), station('A', 2), station('B', 2)];
  expect([1, 2, 3].map((n) => turnAfter(toAndFro, n))).toEqual([undefined, undefined, undefined]);
  expect(turnAfter([station('B', 1), station('B', 2)], 1)).toBeUndefined();
  expect(turnAfter([station('B', 1), station('B', 2)], 0)).toBeUndefined();
});
