import type { Table } from 'dexie';
import type { Id } from '../../shared/ids.ts';
import type { Database } from './database.ts';
import { readNotChosen } from './not-chosen.ts';
import { rest, type ProgressOptions } from './patience.ts';
import { readActs, readRow, type SetAside, type StoredRow } from './rows.ts';
import { slicesOf } from './slices.ts';
import { countOf, readRows, tablesOfRemoval } from './store.ts';
import { mendShelf, putStored, reedIn, tablesOf } from './tables.ts';
import { NOTHING, PORTION, type Changed, type WholeLibrary } from './whole-library.ts';

/** Everything, as it stood at one moment; for a small library. */
export async function readWhole(db: Database): Promise<WholeLibrary> {
  const [stored, passes, actRecords, attachments, settled, gone] = await db.transaction(
    'r',
    tablesOfRemoval(db),
    () =>
      Promise.all([
        db.documents.toArray(),
        db.passes.toArray(),
        db.acts.toArray(),
        db.attachments.toArray(),
        readNotChosen(db),
        db.gone.toArray(),
      ]),
  );
  const rows = [...stored, ...passes].map((row) => readRow(row));
  const { acts, setAside } = readActs(actRecords);
  return {
    documents: rows.flatMap(({ sides }) => sides),
    acts,
    attachments,
    setAside: [...rows.flatMap((row) => row.setAside), ...setAside, ...settled.setAside],
    notChosen: settled.notChosen,
    ...(gone.length > 0 && { gone }),
  };
}

/** Some documents with the pictures that they show, and some logs, as they stood at one moment. */
async function readPart(db: Database, ids: readonly Id[], rounds: readonly Id[]): Promise<WholeLibrary> {
  return db.transaction('r', tablesOfRemoval(db), async () => {
    const rows = (await readRows(db, ids)).filter((row) => row !== undefined);
    const { acts, setAside } = readActs(await db.acts.where('roundId').anyOf(rounds).toArray());
    const documents = rows.flatMap(({ sides }) => sides);
    const hashes = documents.flatMap((one) => (one.kind === 'photo' ? [one.sha256] : []));
    const settled = await readNotChosen(db, ids);
    return {
      documents,
      acts,
      attachments: await db.attachments.where('sha256').anyOf(hashes).toArray(),
      setAside: [...rows.flatMap((row) => row.setAside), ...setAside, ...settled.setAside],
      notChosen: settled.notChosen,
      gone: await db.gone.where('id').anyOf(ids).toArray(),
    };
  });
}

/**
 * Documents of one change that are read at one moment: a copy of a change up to so many never has a half of the next one.
 * Our own number.
 */
const TOGETHER = 250;

async function* partsOf(db: Database, { ids, rounds }: Changed): AsyncGenerator<WholeLibrary> {
  for (const some of slicesOf(ids, TOGETHER)) yield readPart(db, some, []);
  for (const round of rounds) yield readPart(db, [], [round]);
}

/** Rows of a table in order of their keys, some at a time. */
async function* rowsIn<T, K extends string>(table: Table<T, K>, keyOf: (row: T) => K): AsyncGenerator<T[]> {
  for (let after = ''; ;) {
    const rows = await table.where(':id').above(after).limit(PORTION).toArray();
    const last = rows.at(-1);
    if (last === undefined) return;
    yield rows;
    after = keyOf(last);
  }
}

async function* allParts(db: Database): AsyncGenerator<WholeLibrary> {
  for (const table of [db.documents, db.passes])
    for await (const stored of rowsIn(table, ({ id }) => id)) {
      const rows = stored.map((row) => readRow(row));
      yield {
        ...NOTHING,
        documents: rows.flatMap(({ sides }) => sides),
        setAside: rows.flatMap((row) => row.setAside),
      };
    }
  for await (const records of rowsIn(db.acts, ({ id }) => id)) yield { ...NOTHING, ...readActs(records) };
  const settled = await readNotChosen(db);
  yield { ...NOTHING, ...settled, gone: await db.gone.toArray() };
  for (const hash of await db.attachments.toCollection().primaryKeys())
    for (const picture of await db.attachments.where('sha256').equals(hash).toArray())
      yield { ...NOTHING, attachments: [picture] };
}

/** A library, or what has changed of it, in portions. */
export interface Portions {
  /** How many changes this device had made when it began to be read. */
  readonly count: number;
  /** How many portions it will be, about. */
  readonly length: number;
  readonly portions: AsyncIterable<WholeLibrary>;
}

/** Every document as it stands when its portion is read: what changes meanwhile is told of by its own change. */
export async function readPortions(db: Database, changed: Changed | 'all'): Promise<Portions> {
  const count = await countOf(db);
  if (changed !== 'all') {
    const length = Math.ceil(changed.ids.length / TOGETHER) + changed.rounds.length;
    return { count, length, portions: partsOf(db, changed) };
  }
  const counts = await Promise.all([db.documents.count(), db.passes.count(), db.acts.count()]);
  const length = counts.reduce(
    (sum, rows) => sum + Math.ceil(rows / PORTION),
    1 + (await db.attachments.count()),
  );
  return { count, length, portions: allParts(db) };
}

/** What a check of everything has found. */
export interface Checked {
  /** Documents and acts that were looked at. */
  readonly checked: number;
  /** Reeds whose list of passes was not as the passes are, and was made anew. */
  readonly mended: readonly Id[];
  readonly setAside: readonly SetAside[];
}

/**
 * Checks every record against its schema, whatever was checked before, and every shelf against its passes; what is not
 * sound is set aside from then on.
 */
export async function checkEverything(db: Database, patience: ProgressOptions = {}): Promise<Checked> {
  const setAside: SetAside[] = [];
  const tables = [db.documents, db.passes, db.acts, db.shelves];
  const counts = await Promise.all(tables.map((table) => table.count()));
  const all = counts.reduce((sum, rows) => sum + rows, 0);
  let checked = 0;
  const progress = (done: number) => rest(patience, all === 0 ? 1 : Math.min(1, done / all));
  const passesOf = new Map<Id, Id[]>();
  for (const table of [db.documents, db.passes])
    for await (const stored of rowsIn(table, ({ id }) => id)) {
      if (table === db.passes)
        for (const row of stored) passesOf.set(reedIn(row), [...(passesOf.get(reedIn(row)) ?? []), row.id]);
      setAside.push(...(await setBadAside(db, stored)));
      await progress((checked += stored.length));
    }
  for await (const records of rowsIn(db.acts, ({ id }) => id)) {
    setAside.push(...readActs(records).setAside);
    await progress((checked += records.length));
  }
  const mended = await mendShelves(db, passesOf, (looked) => progress(checked + looked));
  return { checked, setAside, mended };
}

/** @param passesOf Every pass of the library by its reed. @returns Reeds whose shelves were not as their passes are. */
async function mendShelves(
  db: Database,
  passesOf: ReadonlyMap<Id, readonly Id[]>,
  progress: (looked: number) => Promise<void>,
): Promise<readonly Id[]> {
  const mended: Id[] = [];
  const reeds = new Set([...(await db.shelves.toCollection().primaryKeys()), ...passesOf.keys()]);
  for (const [i, reed] of [...reeds].entries()) {
    const isMended = await db.transaction('rw', tablesOf(db), () => mendShelf(db, reed, passesOf.get(reed)));
    if (isMended) mended.push(reed);
    await progress(i + 1);
  }
  return mended;
}

/** From now on what is not sound of some rows is set aside. */
async function setBadAside(db: Database, stored: readonly StoredRow[]): Promise<readonly SetAside[]> {
  const found = stored.map((row) => readRow(row, false).setAside);
  const bad = stored.filter((_, i) => found[i]!.length > 0).map(({ id, sides }) => ({ id, sides }));
  await db.transaction('rw', tablesOf(db), async () => putStored(db, bad));
  return found.flat();
}
