import type { Id } from '../../shared/ids.ts';
import type { Act } from '../../shared/round.ts';
import type { ActDraft } from '../ledger/store.ts';
import { inSequence } from './in-force.ts';

/** What can be taken back and what can be done again: ids of acts, one step of the maker's each, last first. */
export interface UndoStacks {
  readonly undo: readonly (readonly Id[])[];
  readonly redo: readonly (readonly Id[])[];
}

type Steps = Map<string, Id[]>;

const addTo = (steps: Steps, { id, step }: Act) => {
  const key = step ?? id;
  steps.set(key, [...(steps.get(key) ?? []), id]);
};

/** Takes an act out of whatever step holds it. */
function removeFrom(steps: Steps, id: Id): boolean {
  for (const [key, ids] of steps) {
    if (!ids.includes(id)) continue;
    if (ids.length === 1) steps.delete(key);
    else
      steps.set(
        key,
        ids.filter((other) => other !== id),
      );
    return true;
  }
  return false;
}

/**
 * Reads both stacks from a round's log. A new act empties the redo stack; a withdrawal of an act moves it to redo, a
 * withdrawal of that withdrawal moves it back. Nothing is forgotten, so both are as deep as the round is long.
 */
export function undoStacks(acts: readonly Act[]): UndoStacks {
  const byId = new Map(acts.map((act) => [act.id, act]));
  const done: Steps = new Map();
  const undone: Steps = new Map();
  for (const act of inSequence(acts)) {
    if (act.act !== 'withdrawn') {
      undone.clear();
      addTo(done, act);
    } else if (removeFrom(done, act.of)) {
      addTo(undone, act);
    } else if (removeFrom(undone, act.of)) {
      const withdrawal = byId.get(act.of);
      const original = withdrawal?.act === 'withdrawn' ? byId.get(withdrawal.of) : undefined;
      if (original) addTo(done, original);
    }
  }
  const lastFirst = (steps: Steps) => [...steps.values()].reverse();
  return { undo: lastFirst(done), redo: lastFirst(undone) };
}

/** Drafts that take a step back, or do it again: one withdrawal for each of its acts, as one step. */
export function withdrawals(roundId: Id, ids: readonly Id[], step: Id): ActDraft[] {
  return ids.map((of) => ({ act: 'withdrawn', roundId, of, step }));
}
