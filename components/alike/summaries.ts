import * as z from 'zod';
import { InputError } from '../../shared/errors.ts';
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

const REMEMBERED = 'reed summaries';
/** Work done at a stretch before keys and pictures get their turn, ms. */
const SLICE_MS = 12;

const keptBy = new WeakMap<LibraryStore, Map<string, ReedSummary>>();

async function kept(store: LibraryStore): Promise<Map<string, ReedSummary>> {
  const known = keptBy.get(store);
  if (known) return known;
  // What an older program remembered is worked out anew.
  const { data = [] } = z.array(reedSummarySchema).safeParse(await store.ledger.recall(REMEMBERED));
  const summaries = new Map(data.map((summary) => [summary.key, summary]));
  keptBy.set(store, summaries);
  return summaries;
}

/** Passes that were looked at whole and do not tell enough, or cannot be drawn between, by their keys. */
const silent = new WeakMap<LibraryStore, Set<string>>();

/** A reed's figures as they were kept, or worked out anew from its readings. */
async function summaryOf(
  store: LibraryStore,
  reed: Reed,
  summaries: Map<string, ReedSummary>,
): Promise<ReedSummary | undefined> {
  const mute = silent.get(store) ?? new Set();
  silent.set(store, mute);
  const own = store.styleNow(reed.styleId);
  const keyOf = (head: PassFacts) => summaryKey(reed, head, own?.key);
  const [likeliest] = mayTell(reed, store.passesOf(reed.id)).filter((head) => !mute.has(keyOf(head)));
  if (!likeliest) return undefined;
  const kept = summaries.get(keyOf(likeliest));
  if (kept) return kept;
  const telling = tellingPass(reed, await store.ledger.passesOf(reed.id));
  if (telling?.id !== likeliest.id) mute.add(keyOf(likeliest));
  if (!telling) return undefined;
  const key = keyOf(telling);
  const summary = summaries.get(key) ?? summariseSafely(reed, telling, own);
  if (summary) summaries.set(key, summary);
  else mute.add(key);
  return summary;
}

/** How far the working-out has come. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

/**
 * Every reed that was read widely enough, with its figures: those worked out before as they were kept, the others in
 * short slices. Yields its progress between them, and keeps what is new on this machine.
 */
export async function* knownReeds(store: LibraryStore): AsyncGenerator<Progress, readonly KnownReed[]> {
  const summaries = await kept(store);
  const reeds = store.snapshot.live.reed;
  const known: KnownReed[] = [];
  let isNew = false;
  let since = performance.now();
  for (const [done, reed] of reeds.entries()) {
    const before = summaries.size;
    const summary = await summaryOf(store, reed, summaries);
    isNew ||= summaries.size > before;
    if (summary) known.push({ reed, summary, trials: store.trialsOf(reed.id) });
    if (performance.now() - since < SLICE_MS) continue;
    yield { done: done + 1, of: reeds.length };
    await new Promise((resolve) => setTimeout(resolve));
    since = performance.now();
  }
  if (isNew && store.ledger.writable) {
    await store.ledger.remember(
      REMEMBERED,
      known.map(({ summary }) => summary),
    );
  }
  return known;
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
