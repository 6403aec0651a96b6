import { knownReeds } from '../../components/alike/summaries.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { inventedLibrary } from '../../demo/scenario/invented-library.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import { findReeds, gatherReeds } from '../../src/rotation/find-reeds.ts';
import { commonTraits } from '../../src/traits/common-traits.ts';

const NAME = 'bench';
const SEED = 1;

async function timed<T>(work: () => Promise<T> | T): Promise<{ value: T; ms: number }> {
  const start = performance.now();
  const value = await work();
  return { value, ms: performance.now() - start };
}

const open = async () => LibraryStore.over(await openLedger({ name: NAME }));

/** What good reeds share, asked of a library just opened; the reeds worked out before are taken as they were kept. */
async function answer(store: LibraryStore): Promise<number> {
  const work = knownReeds(store);
  for (;;) {
    const step = await work.next();
    if (step.done) return commonTraits(step.value).length;
  }
}

function find({ snapshot }: LibraryStore, text: string): number {
  const { reed: reeds, lot: lots, pass: passes, trial: trials, use: uses } = snapshot.live;
  return findReeds(gatherReeds({ reeds, lots, passes, trials, uses }), {
    text,
    state: 'alive',
    sort: 'last played',
  }).length;
}

/** Times in ms, each the best of several: the machine may be busy with other things. */
async function library(count: number, times: number) {
  const first = await open();
  await first.ledger.keep(inventedLibrary(new Date(), SEED, count), 'invented');
  await first.refresh();
  const workOutMs = (await timed(() => answer(first))).ms;
  first.ledger.close();
  let [openMs, findMs, answerMs] = [Infinity, Infinity, Infinity];
  for (let k = 0; k < times; k++) {
    const opened = await timed(open);
    openMs = Math.min(openMs, opened.ms);
    findMs = Math.min(findMs, (await timed(() => find(opened.value, 'invented concert'))).ms);
    answerMs = Math.min(answerMs, (await timed(() => answer(opened.value))).ms);
    opened.value.ledger.close();
  }
  return { workOutMs, openMs, findMs, answerMs };
}

const benchLibrary = { library };
export type BenchLibrary = typeof benchLibrary;
Object.assign(globalThis, { benchLibrary });
