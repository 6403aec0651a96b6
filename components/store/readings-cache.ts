import type { Id } from '../../shared/ids.ts';
import type { Pass, PassHead } from '../../shared/pass.ts';

/** Passes as the index has them, or with their readings. */
export type Passes = readonly (Pass | PassHead)[];

/** Readings of the reeds that were looked at last. */
export interface ReadingsCache {
  /** A reed's passes in their order; undefined when they are not at hand. */
  readonly peek: (reedId: Id) => readonly Pass[] | undefined;
  /** A reed's passes in their order, as they are now. */
  readonly load: (reedId: Id) => Promise<readonly Pass[]>;
  /** Passes of one reed with their readings; what has them already comes back as it is. */
  readonly whole: (passes: Passes) => Promise<readonly Pass[]>;
  /** Reads those at hand anew of which the index says that they have changed. */
  readonly follow: (passesOf: (reedId: Id) => readonly PassHead[]) => Promise<void>;
  /** Everything that is at hand. */
  readonly held: () => readonly Pass[];
}

/** Reeds whose readings are kept: those of one screen, and the last few. */
const MOST_REEDS = 40;

const versionOf = ({ id, versions }: Pick<Pass, 'id' | 'versions'>) => `${id} ${JSON.stringify(versions)}`;
const keyOf = (passes: readonly Pick<Pass, 'id' | 'versions'>[]) => passes.map(versionOf).sort().join();

/** @param read Reads the passes of a reed as they are now. */
export function makeReadingsCache(read: (reedId: Id) => Promise<readonly Pass[]>): ReadingsCache {
  const reeds = new Map<Id, readonly Pass[]>();

  async function load(reedId: Id): Promise<readonly Pass[]> {
    const now = [...(await read(reedId))].sort((a, b) => a.index - b.index);
    // A pass that is as it was stays the same object: what is drawn of it is not drawn again.
    const before = new Map(reeds.get(reedId)?.map((pass) => [versionOf(pass), pass]));
    const passes = now.map((pass) => before.get(versionOf(pass)) ?? pass);
    reeds.delete(reedId);
    reeds.set(reedId, passes);
    for (const old of [...reeds.keys()].slice(0, Math.max(0, reeds.size - MOST_REEDS))) reeds.delete(old);
    return passes;
  }

  return {
    load,
    peek: (reedId) => reeds.get(reedId),
    async whole(passes) {
      const [head] = passes.filter((pass) => !('readings' in pass));
      if (!head) return passes as readonly Pass[];
      const isAtHand = (known: readonly Pass[] | undefined): known is readonly Pass[] => {
        const versions = new Set(known?.map(versionOf));
        return passes.every((pass) => 'readings' in pass || versions.has(versionOf(pass)));
      };
      const atHand = reeds.get(head.reedId);
      const known = isAtHand(atHand) ? atHand : await load(head.reedId);
      // One that was removed meanwhile is not there any more.
      const byId = new Map(known.map((pass) => [pass.id, pass]));
      return passes.flatMap((pass) => ('readings' in pass ? pass : (byId.get(pass.id) ?? [])));
    },
    async follow(passesOf) {
      for (const [reedId, passes] of [...reeds])
        if (keyOf(passes) !== keyOf(passesOf(reedId))) await load(reedId);
    },
    held: () => [...reeds.values()].flat(),
  };
}
