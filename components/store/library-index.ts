import type { Id } from '../../shared/ids.ts';
import type { PassHead } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import type { Snapshot } from '../../src/ledger/snapshot.ts';
import { byLabel, byReed } from '../../src/reed/by-reed.ts';

/** A library's reeds in their order, and what belongs to each in its own. */
export interface LibraryIndex {
  /** Reeds that are not retired first, each group by label. */
  readonly reeds: readonly Reed[];
  readonly reed: ReadonlyMap<Id, Reed>;
  /** By their place within the reed. */
  readonly passesOf: (reedId: Id) => readonly PassHead[];
  /** The oldest first. */
  readonly trials: ReadonlyMap<Id, readonly Trial[]>;
}

function makeIndex({ live, passesOf }: Snapshot): LibraryIndex {
  const passes = new Map<Id, readonly PassHead[]>();
  const retired = ({ state }: Reed) => Number(state === 'retired');
  return {
    reeds: [...live.reed].sort((a, b) => retired(a) - retired(b) || byLabel(a, b)),
    reed: new Map(live.reed.map((reed) => [reed.id, reed])),
    passesOf(reedId) {
      const own = passes.get(reedId) ?? [...passesOf(reedId)].sort((a, b) => a.index - b.index);
      passes.set(reedId, own);
      return own;
    },
    trials: byReed([...live.trial].sort((a, b) => a.playedAt.localeCompare(b.playedAt))),
  };
}

const indices = new WeakMap<Snapshot, LibraryIndex>();

/** Made once for a snapshot, however often it is asked. */
export function libraryIndex(snapshot: Snapshot): LibraryIndex {
  const index = indices.get(snapshot) ?? makeIndex(snapshot);
  indices.set(snapshot, index);
  return index;
}
