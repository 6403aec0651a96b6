import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import { knifeYield, type KnifeYield } from '../../src/plan/knife-yield.ts';
import { loggedWork, type LoggedWork } from '../../src/plan/stroke-log.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** Newest reeds whose logs are read: a knife changes as it is ground. */
const MOST_REEDS = 24;

const hasLog = (store: LibraryStore, reed: Reed) =>
  store.passesOf(reed.id).some(({ scrape }) => scrape?.places.some(({ strokes }) => (strokes ?? 0) > 0));

/** Reeds with logged strokes, the newest first. */
function loggedReeds(store: LibraryStore): Reed[] {
  return store.reeds
    .filter((reed) => hasLog(store, reed))
    .sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))
    .slice(0, MOST_REEDS);
}

/** What tells one state of all logs from another. */
export function logKey(store: LibraryStore): string {
  return JSON.stringify(
    loggedReeds(store).flatMap(({ id }) => store.passesOf(id).map(({ versions }) => versions)),
  );
}

/** What is known of the maker's knives. */
export interface Knives {
  readonly work: readonly LoggedWork[];
  readonly yields: ReadonlyMap<string, KnifeYield>;
}

/** Reads all logs, fitting the reeds that they belong to. */
export async function readKnives(store: LibraryStore): Promise<Knives> {
  const work: LoggedWork[] = [];
  for (const reed of loggedReeds(store)) {
    const benched = await store.models.settled(reed, store.passesOf(reed.id));
    if (benched.model) work.push(...loggedWork(benched));
  }
  const names = [...new Set(work.map(({ knife }) => knife))];
  const yields = new Map(names.map((name) => [name, knifeYield(work.filter(({ knife }) => knife === name))]));
  return { work, yields };
}

/** The knife that was last written down with a reed, or with any. */
export function lastKnife(store: LibraryStore, reedId: Id): string | undefined {
  const own = store.passesOf(reedId).findLast(({ scrape }) => scrape?.knife)?.scrape?.knife;
  return own ?? store.snapshot.live.pass.findLast(({ scrape }) => scrape?.knife)?.scrape?.knife;
}
