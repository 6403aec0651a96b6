import { expect, it } from 'vitest';
import type { Act, Round } from '../../../shared/round.ts';
import { historyOf } from '../../../src/rotation/history.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { readersWords } from '../../../src/round/readers.ts';
import { passFromRound } from '../../../src/round/round-to-pass.ts';

const station = (fromTipMm: number) => ({ blade: 'A', fromTipMm, across: 0, role: 'station' }) as const;
const taken = (seq: number, by: string | undefined, replaces?: string): Act => ({
  act: 'taken',
  id: `a${seq}`,
  roundId: 'r',
  deviceId: 'd',
  seq,
  at: '2026-03-01T09:00:00+01:00',
  station: station(seq % 3),
  thicknessMm: 0.46,
  flag: 'ok',
  ...(by !== undefined && { by }),
  ...(replaces !== undefined && { replaces }),
});
/** Invented. */
const round = {
  reedId: 'k',
  passIndex: 2,
  about: {},
  startedAt: '2026-03-01T09:00:00+01:00',
  stations: [station(0), station(1), station(2)],
} as unknown as Round;

it('says who has read what counts, and who a pass was read by', () => {
  const acts = [taken(1, 'bert'), taken(2, 'anna'), taken(3, 'anna'), taken(4, undefined, 'a1')];
  const state = foldRound(round, acts);
  // What bert read was replaced by somebody without a name.
  expect(readersWords(state)).toBe('anna 2');
  expect(readersWords(foldRound(round, acts.slice(0, 3)))).toBe('anna 2, bert 1');
  const pass = passFromRound(round, foldRound(round, acts.slice(0, 3)));
  expect(pass.readBy).toEqual(['anna', 'bert']);
  const kept = { passes: [{ ...pass, id: 'p' }], trials: [], uses: [] } as unknown as Parameters<
    typeof historyOf
  >[1];
  expect(historyOf({} as Parameters<typeof historyOf>[0], kept)[0]?.what).toBe(
    'pass 2, 3 readings by anna and bert',
  );
});

it('says nothing of readers where nobody has a name', () => {
  const state = foldRound(round, [taken(1, undefined)]);
  expect(readersWords(state)).toBe('');
  expect(passFromRound(round, state)).not.toHaveProperty('readBy');
});
