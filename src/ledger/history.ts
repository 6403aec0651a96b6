import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import type { Versions } from '../../shared/stamp.ts';
import { inverse, type Draft } from './drafts.ts';
import type { Kept, Ledger } from './ledger-face.ts';
import type { Siblings } from './sides.ts';
import type { SeenActs } from './store.ts';

/** What undo and redo would do now, in the labels of the changes; absent when there is nothing. */
export interface HistoryState {
  readonly undo?: string;
  readonly redo?: string;
}

/** The changes of one session, each of which can be taken back and done again, without limit. */
export interface History {
  readonly state: () => HistoryState;
  readonly keep: (drafts: readonly Draft[], label: string, seen?: SeenActs) => Promise<Kept>;
  readonly remove: (ids: readonly Id[], label: string) => Promise<Kept>;
  readonly settle: (chosen: LibraryDocument, seen: Siblings, label: string) => Promise<Kept>;
  readonly restore: (ids: readonly Id[], label: string) => Promise<Kept>;
  /**
   * Takes back the last change; returns its label, or nothing when there is none.
   *
   * @throws ConflictError when one of its documents was changed elsewhere since: it stays as it is.
   */
  readonly undo: () => Promise<string | undefined>;
  readonly redo: () => Promise<string | undefined>;
}

export function openHistory(ledger: Ledger): History {
  const done: Kept[] = [];
  const undone: Kept[] = [];
  const lastVersions = new Map<Id, Versions>();

  /** An older change is undone on top of what this session has written since, and on nothing else. */
  function remember(kept: Kept): Kept {
    for (const { after } of kept.steps) lastVersions.set(after.id, after.versions);
    return kept;
  }

  async function add(work: Promise<Kept>): Promise<Kept> {
    const kept = remember(await work);
    done.push(kept);
    undone.length = 0;
    return kept;
  }

  async function turnBack(from: Kept[], to: Kept[]): Promise<string | undefined> {
    const last = from.at(-1);
    if (!last) return undefined;
    const drafts = inverse(last.steps, ledger.now(), (id) => lastVersions.get(id) ?? {});
    to.push(remember(await ledger.keep(drafts, last.label)));
    from.pop();
    return last.label;
  }

  return {
    state: () => {
      const undo = done.at(-1)?.label;
      const redo = undone.at(-1)?.label;
      return { ...(undo !== undefined && { undo }), ...(redo !== undefined && { redo }) };
    },
    keep: (drafts, label, seen) => add(ledger.keep(drafts, label, seen)),
    remove: (ids, label) => add(ledger.remove(ids, label)),
    settle: (chosen, seen, label) => add(ledger.settle(chosen, seen, label)),
    restore: (ids, label) => add(ledger.restore(ids, label)),
    undo: () => turnBack(done, undone),
    redo: () => turnBack(undone, done),
  };
}
