import { settled, type BenchedReed } from '../../src/answers/benched-reed.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import { faultSearch } from '../../src/faults/find-faults.ts';
import { judgedPasses } from '../../src/faults/judged-passes.ts';

/** What was found in a reed's passes, and the reed as it is fitted when that is known. */
export interface Watched {
  readonly found: readonly PassFaults[];
  readonly reed: BenchedReed;
}

const known = new WeakMap<BenchedReed, Watched>();

/** Faults of a reed on the bench, a pass at a time with room between them for keys and pictures. */
export async function faultsOnBench(reed: BenchedReed, signal: AbortSignal): Promise<Watched> {
  const kept = known.get(reed);
  if (kept) return kept;
  const search = faultSearch(judgedPasses(reed.assembled, reed.passes), reed.assembled.options);
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve));
    signal.throwIfAborted();
    const step = search.next();
    if (!step.done) continue;
    const watched = { found: step.value, reed: settled(reed, step.value) };
    known.set(reed, watched);
    return watched;
  }
}
