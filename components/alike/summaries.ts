import { InputError } from '../../shared/errors.ts';
import type { Id } from '../../shared/ids.ts';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { KnownReed } from '../../src/traits/columns.ts';
import {
  mayTell,
  reedSummarySchema,
  summarise,
  summaryKey,
  tellingPass,
  type ReedSummary,
} from '../../src/traits/reed-summary.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** Work done at a stretch before keys, pictures and what is kept get their turn, ms: about one reed. */
const SLICE_MS = 4;
/** Reeds whose figures are read and kept at once. Our own number. */
const AT_ONCE = 100;

/** The figures of a library's reeds, as far as they were asked for. */
interface Known {
  /** Reeds of which it was read what was kept of them. */
  readonly read: Set<Id>;
  readonly byReed: Map<Id, ReedSummary>;
  /** Those that were worked out and are not kept yet. */
  readonly fresh: Map<Id, ReedSummary>;
  /** Passes that were looked at whole and do not tell enough, or cannot be drawn between, by their keys. */
  readonly silent: Set<string>;
}

const knownOf = new WeakMap<LibraryStore, Known>();

function knownIn(store: LibraryStore): Known {
  const known = knownOf.get(store) ?? {
    read: new Set(),
    byReed: new Map(),
    fresh: new Map(),
    silent: new Set(),
  };
  knownOf.set(store, known);
  return known;
}

/** Reads what was kept of reeds; what an older program kept is worked out anew. */
async function readKept(store: LibraryStore, { read, byReed }: Known, reeds: readonly Reed[]): Promise<void> {
  const ids = reeds.map(({ id }) => id).filter((id) => !read.has(id));
  if (ids.length === 0) return;
  for (const [id, value] of await store.ledger.recallOf(ids)) {
    const { success, data } = reedSummarySchema.safeParse(value);
    if (success) byReed.set(id, data);
  }
  for (const id of ids) read.add(id);
}

/** A reed's figures as they were kept, or worked out anew from its readings. */
async function summaryOf(
  store: LibraryStore,
  reed: Reed,
  { byReed, fresh, silent }: Known,
): Promise<ReedSummary | undefined> {
  const own = store.styleNow(reed.styleId);
  const keyOf = (head: PassFacts) => summaryKey(reed, head, own?.key);
  const [likeliest] = mayTell(reed, store.passesOf(reed.id)).filter((head) => !silent.has(keyOf(head)));
  if (!likeliest) return undefined;
  const kept = byReed.get(reed.id);
  if (kept?.key === keyOf(likeliest)) return kept;
  const telling = tellingPass(reed, await store.ledger.passesOf(reed.id));
  if (telling?.id !== likeliest.id) silent.add(keyOf(likeliest));
  if (!telling) return undefined;
  if (kept?.key === keyOf(telling)) return kept;
  const summary = summariseSafely(reed, telling, own);
  if (summary) for (const kind of [byReed, fresh]) kind.set(reed.id, summary);
  else silent.add(keyOf(telling));
  return summary;
}

async function keepFresh({ ledger }: LibraryStore, { fresh }: Known): Promise<void> {
  if (fresh.size === 0 || !ledger.writable) return;
  const all = new Map(fresh);
  fresh.clear();
  await ledger.rememberOf(all);
}

/** How far the working-out has come. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

/**
 * Every reed that was read widely enough, with its figures: those worked out before as they were kept, the others in
 * short slices. Yields its progress between them, and keeps what is new on this machine, a row a reed.
 */
export async function* knownReeds(store: LibraryStore): AsyncGenerator<Progress, readonly KnownReed[]> {
  const known = knownIn(store);
  const reeds = store.snapshot.live.reed;
  const all: KnownReed[] = [];
  let [since, done] = [performance.now(), 0];
  for (let at = 0; at < reeds.length; at += AT_ONCE) {
    const some = reeds.slice(at, at + AT_ONCE);
    await readKept(store, known, some);
    for (const reed of some) {
      const summary = await summaryOf(store, reed, known);
      if (summary) all.push({ reed, summary, trials: store.trialsOf(reed.id) });
      done++;
      if (performance.now() - since < SLICE_MS) continue;
      yield { done, of: reeds.length };
      await new Promise((resolve) => setTimeout(resolve));
      since = performance.now();
    }
    await keepFresh(store, known);
  }
  return all;
}

/** Nothing for readings that cannot be drawn between: the bench says so where that reed is shown. */
function summariseSafely(...asked: Parameters<typeof summarise>): ReedSummary | undefined {
  try {
    return summarise(...asked);
  } catch (error) {
    if (error instanceof InputError || error instanceof RangeError) return undefined;
    throw error;
  }
}
