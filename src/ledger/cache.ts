import type { Id } from '../../shared/ids.ts';
import type { Database } from './database.ts';
import { readRow, type Row } from './rows.ts';
import { slicesOf } from './slices.ts';
import { makeLazyShelf, type LazyShelf } from './lazy-shelf.ts';
import { makeSnapshot, type Snapshot } from './snapshot.ts';
import { readRows } from './store.ts';
import { reedIn } from './tables.ts';

/** What was read of the library, all but readings. What has gone stale is read again when it is next asked for. */
export interface Cache {
  readonly markStale: (ids: readonly Id[] | 'all') => void;
  /** The same object until something changes. */
  readonly read: () => Promise<Snapshot>;
}

/** The index as it was read. */
interface Index {
  /** All but passes. */
  readonly rows: Map<Id, Row>;
  readonly shelves: Map<Id, LazyShelf>;
  /** Passes that are looked at whole. */
  readonly oddPasses: Map<Id, Row>;
}

async function readAll({ rows, shelves, oddPasses }: Index, db: Database): Promise<void> {
  const [stored, all] = await Promise.all([db.documents.toArray(), db.shelves.toArray()]);
  rows.clear();
  shelves.clear();
  oddPasses.clear();
  for (const row of stored) rows.set(row.id, readRow(row));
  for (const shelf of all) shelves.set(shelf.id, makeLazyShelf(shelf));
}

/** More changes than this are read with everything else: to look for each on every shelf would take longer. */
const MANY = 100;
/** Shelves that are looked through before the page draws and hears its maker. Our own number. */
const SHELVES_AT_ONCE = 200;

/** Reads documents again, and the shelves of passes among them. */
async function readSome({ rows, shelves }: Index, db: Database, ids: readonly Id[]): Promise<void> {
  const stored = await db.documents.bulkGet([...ids]);
  const others = new Set<Id>();
  ids.forEach((id, i) => {
    const row = stored[i];
    if (row) rows.set(id, readRow(row));
    else if (!rows.delete(id)) others.add(id);
  });
  if (others.size === 0) return;
  const passes = (await db.passes.bulkGet([...others])).filter((row) => row !== undefined);
  const touched = new Set(passes.map(reedIn));
  for (const id of others) if ([...touched].some((reed) => shelves.get(reed)?.holds(id))) others.delete(id);
  // Not where they stand now: new, moved from another reed, or removed for good. Looked for in every shelf's text.
  for (const slice of slicesOf([...shelves], SHELVES_AT_ONCE)) {
    for (const [id, shelf] of slice) if ([...others].some(shelf.holds)) touched.add(id);
    await new Promise((resolve) => setTimeout(resolve));
  }
  for (const id of touched) {
    const shelf = await db.shelves.get(id);
    if (shelf) shelves.set(id, makeLazyShelf(shelf));
    else shelves.delete(id);
  }
}

/** Passes in disagreement, or that cannot be read, are looked at whole. */
async function readOdd({ shelves, oddPasses }: Index, db: Database): Promise<void> {
  const ids = [...shelves.values()].flatMap(({ odd }) => odd);
  oddPasses.clear();
  for (const row of await readRows(db, ids)) if (row) oddPasses.set(row.id, row);
}

export function makeCache(db: Database): Cache {
  const index: Index = { rows: new Map(), shelves: new Map(), oddPasses: new Map() };
  let stale: Set<Id> | 'all' = 'all';
  let snapshot: Snapshot = makeSnapshot([], [], []);
  let reading: Promise<unknown> = Promise.resolve();

  const markStale = (ids: readonly Id[] | 'all') => {
    stale = ids === 'all' || stale === 'all' ? 'all' : new Set([...stale, ...ids]);
  };

  async function refresh() {
    if (stale !== 'all' && stale.size === 0) return;
    const wanted = stale;
    stale = new Set();
    try {
      if (wanted === 'all' || wanted.size > MANY) await readAll(index, db);
      else await readSome(index, db, [...wanted]);
      await readOdd(index, db);
    } catch (error) {
      markStale(wanted === 'all' ? 'all' : [...wanted]);
      throw error;
    }
    snapshot = makeSnapshot(index.rows.values(), index.oddPasses.values(), index.shelves.values());
  }

  /** One refresh at a time: a second caller waits, then finds nothing stale. */
  function fresh(): Promise<void> {
    const next = reading.then(refresh);
    reading = next.catch(() => undefined);
    return next;
  }

  return {
    markStale,
    async read() {
      await fresh();
      return snapshot;
    },
  };
}
