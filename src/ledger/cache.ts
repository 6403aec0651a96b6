import type { Id } from '../../shared/ids.ts';
import type { Database } from './database.ts';
import { readRow, type Row } from './rows.ts';
import { makeSnapshot, type Snapshot } from './snapshot.ts';
import { readRows } from './store.ts';

/** What was read of the library. What has gone stale is read again when it is next asked for. */
export interface Cache {
  readonly markStale: (ids: readonly Id[] | 'all') => void;
  /** The same object until something changes. */
  readonly read: () => Promise<Snapshot>;
  readonly row: (id: Id) => Promise<Row | undefined>;
}

async function readInto(rows: Map<Id, Row>, db: Database, stale: ReadonlySet<Id> | 'all'): Promise<void> {
  if (stale === 'all') {
    const stored = await db.documents.toArray();
    rows.clear();
    for (const row of stored.map(readRow)) rows.set(row.id, row);
    return;
  }
  const ids = [...stale];
  const read = await readRows(db, ids);
  ids.forEach((id, i) => {
    const row = read[i];
    if (row) rows.set(id, row);
    else rows.delete(id);
  });
}

export function makeCache(db: Database): Cache {
  const rows = new Map<Id, Row>();
  let stale: Set<Id> | 'all' = 'all';
  let snapshot: Snapshot = makeSnapshot([]);
  let reading: Promise<unknown> = Promise.resolve();

  const markStale = (ids: readonly Id[] | 'all') => {
    stale = ids === 'all' || stale === 'all' ? 'all' : new Set([...stale, ...ids]);
  };

  async function refresh() {
    if (stale !== 'all' && stale.size === 0) return;
    const wanted = stale;
    stale = new Set();
    try {
      await readInto(rows, db, wanted);
    } catch (error) {
      markStale(wanted === 'all' ? 'all' : [...wanted]);
      throw error;
    }
    snapshot = makeSnapshot(rows.values());
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
    async row(id) {
      await fresh();
      return rows.get(id);
    },
  };
}
