import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import { faultSearch } from '../../src/faults/find-faults.ts';
import { judgedPasses } from '../../src/faults/judged-passes.ts';

const known = new WeakMap<BenchedReed, readonly PassFaults[]>();

/** Faults of a reed on the bench, a pass at a time with room between them for keys and pictures. */
export async function faultsOnBench(reed: BenchedReed, signal: AbortSignal): Promise<readonly PassFaults[]> {
  const kept = known.get(reed);
  if (kept) return kept;
  const search = faultSearch(judgedPasses(reed.assembled, reed.passes), reed.assembled.options);
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve));
    signal.throwIfAborted();
    const step = search.next();
    if (!step.done) continue;
    known.set(reed, step.value);
    return step.value;
  }
}
