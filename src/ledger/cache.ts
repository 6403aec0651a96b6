import type { Id } from '../../shared/ids.ts';
import type { Database } from './database.ts';
import { readRow, type Row } from './rows.ts';
import { makeLazyShelf, type LazyShelf } from './lazy-shelf.ts';
import type { DocumentsChange } from './notices.ts';
import { makeSnapshot, type Snapshot } from './snapshot.ts';
import { readRows } from './store.ts';

/** What was read of the library, all but readings. What has gone stale is read again when it is next asked for. */
export interface Cache {
  readonly markStale: (changed: Pick<DocumentsChange, 'ids' | 'shelves'>) => void;
  /** The same object until something changes. */
  readonly read: () => Promise<Snapshot>;
}

/** The index as it was read. */
interface Index {
  readonly onUnreadable: (reedId: Id) => void;
  /** All but passes. */
  readonly rows: Map<Id, Row>;
  readonly shelves: Map<Id, LazyShelf>;
  /** Passes that are looked at whole. */
  readonly oddPasses: Map<Id, Row>;
}

async function readAll({ rows, shelves, oddPasses, onUnreadable }: Index, db: Database): Promise<void> {
  const [stored, all] = await Promise.all([db.documents.toArray(), db.shelves.toArray()]);
  rows.clear();
  shelves.clear();
  oddPasses.clear();
  for (const row of stored) rows.set(row.id, readRow(row));
  for (const shelf of all) shelves.set(shelf.id, makeLazyShelf(shelf, onUnreadable));
}

/** What has changed since it was read. */
type Stale = { readonly ids: ReadonlySet<Id>; readonly shelves: ReadonlySet<Id> } | 'all';
const NONE: Stale = { ids: new Set(), shelves: new Set() };

function joinStale(a: Stale, b: Stale): Stale {
  if (a === 'all' || b === 'all') return 'all';
  return { ids: new Set([...a.ids, ...b.ids]), shelves: new Set([...a.shelves, ...b.shelves]) };
}

/** More changes than this are read with everything else, which is then faster. Our own number. */
const MANY = 1000;

/** Reads documents and shelves again. */
async function readSome(
  { rows, shelves, onUnreadable }: Index,
  db: Database,
  stale: Exclude<Stale, 'all'>,
): Promise<void> {
  const [ids, reeds] = [[...stale.ids], [...stale.shelves]];
  const [documents, passes] = await Promise.all([db.documents.bulkGet(ids), db.shelves.bulkGet(reeds)]);
  documents.forEach((row, i) => (row ? rows.set(row.id, readRow(row)) : rows.delete(ids[i]!)));
  passes.forEach((shelf, i) =>
    shelf ? shelves.set(shelf.id, makeLazyShelf(shelf, onUnreadable)) : shelves.delete(reeds[i]!),
  );
}

/** Passes in disagreement, or that cannot be read, are looked at whole. */
async function readOdd({ shelves, oddPasses }: Index, db: Database): Promise<void> {
  const ids = [...shelves.values()].flatMap(({ odd }) => odd);
  oddPasses.clear();
  for (const row of await readRows(db, ids)) if (row) oddPasses.set(row.id, row);
}

/** @param onUnreadable Told of a reed whose list of passes cannot be read. */
export function makeCache(db: Database, onUnreadable: (reedId: Id) => void): Cache {
  const index: Index = { onUnreadable, rows: new Map(), shelves: new Map(), oddPasses: new Map() };
  let stale: Stale = 'all';
  let snapshot: Snapshot = makeSnapshot([], [], []);
  let reading: Promise<unknown> = Promise.resolve();

  async function refresh() {
    if (stale !== 'all' && stale.ids.size + stale.shelves.size === 0) return;
    const wanted = stale;
    stale = NONE;
    try {
      if (wanted === 'all' || wanted.ids.size + wanted.shelves.size > MANY) await readAll(index, db);
      else await readSome(index, db, wanted);
      await readOdd(index, db);
    } catch (error) {
      stale = joinStale(stale, wanted);
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
    markStale({ ids, shelves }) {
      const isKnown = ids !== 'all' && shelves !== undefined;
      stale = joinStale(stale, isKnown ? { ids: new Set(ids), shelves: new Set(shelves) } : 'all');
    },
    async read() {
      await fresh();
      return snapshot;
    },
  };
}
