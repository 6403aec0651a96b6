import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { passSchema } from '../../../shared/pass.ts';
import { actSchema, type Act, type Round } from '../../../shared/round.ts';
import { foldRound } from '../../../src/round/fold-round.ts';
import { placeKey } from '../../../src/round/place-words.ts';
import { passFromRound } from '../../../src/round/round-to-pass.ts';
import { undoStacks, withdrawals } from '../../../src/round/undo.ts';
import type { ActDraft } from '../../../src/ledger/store.ts';
import { DEVICE_ID, OTHER_DEVICE_ID, ROUND_ID, idOf, stamped, station, taken, withdrawn } from './acts.ts';

const P1 = station('A', 1, -0.8);
const P2 = station('A', 1, 0);
const P3 = station('B', 1, 0.8);
const STATIONS = [P1, P2, P3];
const fold = (drafts: readonly ActDraft[]) => foldRound({ stations: STATIONS }, stamped(drafts));
const stateAt = (state: ReturnType<typeof fold>, at: typeof P1) => state.byKey.get(placeKey(at));
const skipped = (at: typeof P1, reason: 'no-cane' | 'wire' | 'out of reach' | 'later'): ActDraft => ({
  act: 'skipped',
  roundId: ROUND_ID,
  station: at,
  reason,
});
const values = (state: ReturnType<typeof fold>, at = P1) =>
  stateAt(state, at)?.readings.map(({ thicknessMm }) => thicknessMm);

describe('what a round holds', () => {
  it('asks for the first station not read', () => {
    expect(fold([]).next).toBe(0);
    expect(fold([taken(P1, 0.4)]).next).toBe(1);
    expect(fold([taken(P1, 0.4), taken(P3, 0.4)]).next).toBe(1);
    expect(fold(STATIONS.map((at) => taken(at, 0.4))).next).toBeUndefined();
  });

  it('keeps repeats with their mean and spread', () => {
    const state = stateAt(fold([taken(P1, 0.4), taken(P1, 0.43), taken(P1, 0.4)]), P1)!;
    expect(state.readings.length).toBe(3);
    expect(state.meanMm).toBeCloseTo(0.41, 12);
    expect(state.spreadMm).toBeCloseTo(0.03, 12);
  });

  it('lets a reading stand in for another, which comes back when the new one is withdrawn', () => {
    const replaced = [taken(P1, 0.34), taken(P1, 0.44, { replaces: idOf(1) })];
    expect(values(fold(replaced))).toEqual([0.44]);
    expect(values(fold([...replaced, withdrawn(idOf(2))]))).toEqual([0.34]);
  });

  it('passes over skipped places and comes back at the end to those put off', () => {
    const later = [skipped(P1, 'later'), skipped(P2, 'out of reach')];
    expect(fold(later).next).toBe(2);
    expect(fold([...later, taken(P3, 0.5)]).next).toBe(0);
    expect(fold([...later, taken(P3, 0.5), taken(P1, 0.5)]).next).toBeUndefined();
  });

  it('counts a reading where a place was skipped first', () => {
    const state = fold([skipped(P1, 'no-cane'), taken(P1, 0.1)]);
    expect(stateAt(state, P1)?.skipped).toBeUndefined();
    expect([state.nTaken, state.nSkipped]).toEqual([1, 0]);
  });

  it('takes the last flag, and the first again when that is withdrawn', () => {
    const flagged = (flag: 'doubtful' | 'weak'): ActDraft => ({
      act: 'flagged',
      roundId: ROUND_ID,
      of: idOf(1),
      flag,
    });
    const log = [taken(P1, 0.4), flagged('weak'), flagged('doubtful')];
    expect(stateAt(fold(log), P1)?.readings[0]?.flag).toBe('doubtful');
    expect(stateAt(fold([...log, withdrawn(idOf(3))]), P1)?.readings[0]?.flag).toBe('weak');
  });

  it('adds places that the round did not ask for, and never asks for them', () => {
    const extra = station('B', 7.3, 0.2);
    const state = fold([taken(extra, 0.3)]);
    expect(stateAt(state, extra)).toMatchObject({ asked: false });
    expect(state.stations.length).toBe(4);
    expect(state.next).toBe(0);
  });

  it('survives a chain of ten thousand withdrawals', () => {
    const chain = Array.from({ length: 10_000 }, (_, i) => withdrawn(idOf(i + 1)));
    expect(values(fold([taken(P1, 0.4), ...chain]))).toEqual([0.4]);
    expect(values(fold([taken(P1, 0.4), ...chain, withdrawn(idOf(10_001))]))).toEqual([]);
  });
});

describe('undo and redo', () => {
  /** The maker's own model: a list of readings, and a list of those taken back. */
  interface Model {
    done: (readonly number[])[];
    undone: (readonly number[])[];
  }
  const command = fc.oneof(
    fc.integer({ min: 1, max: 99 }).map((count) => ({ do: 'take' as const, counts: [count] })),
    fc
      .array(fc.integer({ min: 1, max: 99 }), { minLength: 2, maxLength: 5 })
      .map((counts) => ({ do: 'take' as const, counts })),
    fc.constant({ do: 'undo' as const, counts: [] }),
    fc.constant({ do: 'redo' as const, counts: [] }),
  );

  function play(commands: readonly { do: 'take' | 'undo' | 'redo'; counts: readonly number[] }[]) {
    const model: Model = { done: [], undone: [] };
    let acts: Act[] = [];
    let steps = 0;
    const add = (drafts: readonly ActDraft[]) => {
      acts = [...acts, ...stamped(drafts, acts.length + 1)];
    };
    for (const { do: what, counts } of commands) {
      const step = idOf(2_000_000 + steps++);
      if (what === 'take') {
        add(counts.map((count) => taken(P1, count / 100, { step })));
        model.done.push(counts);
        model.undone = [];
        continue;
      }
      const ids = undoStacks(acts)[what][0];
      const [from, to] = what === 'undo' ? [model.done, model.undone] : [model.undone, model.done];
      const moved = from.pop();
      expect(ids?.length).toBe(moved?.length);
      if (!ids || !moved) continue;
      to.push(moved);
      add(withdrawals(ROUND_ID, ids, step));
    }
    return { model, acts };
  }

  it('follow the maker without limit, a pasted block as one step', () => {
    fc.assert(
      fc.property(fc.array(command, { maxLength: 40 }), (commands) => {
        const { model, acts } = play(commands);
        const held = stateAt(foldRound({ stations: STATIONS }, acts), P1)!.readings;
        const counts = held.map(({ thicknessMm }) => Math.round(thicknessMm * 100));
        expect(counts.sort()).toEqual(model.done.flat().sort());
        for (const act of acts) expect(actSchema.safeParse(act).success).toBe(true);
      }),
    );
  });

  it('hold when two devices write into one round and the logs come in any order', () => {
    fc.assert(
      fc.property(
        fc.array(command, { maxLength: 20 }),
        fc.array(fc.integer({ min: 1, max: 99 }), { maxLength: 10 }),
        fc.integer(),
        (commands, others, seed) => {
          const mine = play(commands).acts;
          const theirs = stamped(
            others.map((count, i) => ({ ...taken(P2, count / 100), id: idOf(3_000_000 + i) })),
            1,
            OTHER_DEVICE_ID,
          );
          const together = [...mine, ...theirs];
          const shuffled = together
            .map((act, i) => ({ act, order: Math.sin(seed + i) }))
            .sort((a, b) => a.order - b.order)
            .map(({ act }) => act);
          expect(foldRound({ stations: STATIONS }, [...shuffled, ...mine])).toEqual(
            foldRound({ stations: STATIONS }, together),
          );
        },
      ),
    );
  });
});

it('closes into a pass that holds every reading that counts', () => {
  const round: Round = {
    kind: 'round',
    formatVersion: 1,
    id: ROUND_ID,
    versions: { [DEVICE_ID]: 1 },
    createdAt: '2026-03-01T20:00:00+01:00',
    updatedAt: '2026-03-01T20:00:00+01:00',
    reedId: idOf(5),
    passIndex: 3,
    plan: 'Spot',
    stations: STATIONS,
    about: { overallLengthMm: 70.5, wetness: 'wet', note: 'Before lunch.' },
    startedAt: '2026-03-01T20:00:00+01:00',
  };
  const state = fold([
    taken(P1, 0.4),
    taken(P1, 0.42),
    skipped(P2, 'no-cane'),
    skipped(P3, 'out of reach'),
    { act: 'noted', roundId: ROUND_ID, text: 'Corner looks thin.' },
  ]);
  const pass = passFromRound(round, state);
  const { id, versions, formatVersion, createdAt, updatedAt } = round;
  expect(passSchema.parse({ ...pass, id, versions, formatVersion, createdAt, updatedAt })).toMatchObject({
    index: 3,
    overallLengthMm: 70.5,
    takenAt: round.startedAt,
    note: 'Before lunch.\nCorner looks thin.',
    readings: [
      { ...P1, thicknessMm: 0.4, repeat: 0, flag: 'ok' },
      { ...P1, thicknessMm: 0.42, repeat: 1, flag: 'ok' },
      { ...P2, repeat: 0, flag: 'no-cane' },
    ],
  });
});
