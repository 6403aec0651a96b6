import type { Table } from 'dexie';
import type { Id } from '../../shared/ids.ts';
import { canonicalJson } from './canonical.ts';
import { readRow, toStored, type StoredRow } from './rows.ts';
import { headsText, shelvedOf, shelvedRow, type Shelf, type ShelvedRow } from './shelves.ts';

/**
 * Where documents stand: passes in a table of their own, for their readings are most of a library, and on the shelf of
 * their reed what they are besides.
 */
export interface DocumentTables {
  readonly documents: Table<StoredRow, string>;
  readonly passes: Table<StoredRow, string>;
  readonly shelves: Table<Shelf, string>;
}

export const tablesOf = ({ documents, passes, shelves }: DocumentTables) => [documents, passes, shelves];

const isPass = ({ sides }: StoredRow) =>
  Array.isArray(sides) && sides.some((one: { kind?: unknown } | null) => one?.kind === 'pass');

/** The reed on whose shelf a pass stands; what cannot be read of it may name none. */
export function reedIn({ sides }: StoredRow): string {
  const [first] = sides as readonly { reedId?: unknown }[];
  return typeof first?.reedId === 'string' ? first.reedId : '';
}

/** Inside a transaction: rows as they are stored. Both tables are asked at once: a transaction with nothing to do ends. */
export async function getStored(
  { documents, passes }: DocumentTables,
  ids: readonly Id[],
): Promise<(StoredRow | undefined)[]> {
  if (ids.length === 0) return [];
  const [others, own] = await Promise.all([documents.bulkGet([...ids]), passes.bulkGet([...ids])]);
  return others.map((row, i) => row ?? own[i]);
}

/** What stands on a shelf; for one that cannot be read every pass of the library is looked through. */
export async function standingOn(
  { passes }: DocumentTables,
  shelf: Shelf | undefined,
): Promise<readonly ShelvedRow[]> {
  if (shelf === undefined) return [];
  const own = () => passes.filter((row) => reedIn(row) === shelf.id).toArray();
  return shelvedOf(shelf) ?? (await own()).map((stored) => shelvedRow(readRow(stored)));
}

/** Takes rows off their shelves and puts them on those where they stand now. @returns Whose shelves have changed. */
async function shelve(
  tables: DocumentTables,
  ids: readonly Id[],
  rows: readonly StoredRow[],
  reeds: readonly string[],
): Promise<readonly Id[]> {
  const off = new Set(ids);
  const on = groupBy(rows, reedIn);
  const keys = [...new Set([...reeds, ...on.keys()])];
  const before = await tables.shelves.bulkGet(keys);
  const standing = await Promise.all(before.map((shelf) => standingOn(tables, shelf)));
  const after = keys.map((id, i): Shelf => {
    const staying = standing[i]!.filter((row) => !off.has(row.id));
    const coming = (on.get(id) ?? []).map((stored) => readRow(stored));
    return headsText(id, staying, coming);
  });
  await putShelves(tables, after);
  return keys;
}

/** Inside a transaction: an empty shelf is taken away. */
async function putShelves({ shelves }: DocumentTables, all: readonly Shelf[]): Promise<void> {
  await shelves.bulkPut(all.filter(({ heads }) => heads !== '[]'));
  await shelves.bulkDelete(all.filter(({ heads }) => heads === '[]').map(({ id }) => id));
}

/**
 * Inside a transaction: lays the shelf of a reed anew where it is not as the passes are.
 *
 * @param known Passes that may stand on it; those that it names are looked at, too.
 * @returns Whether it was not as the passes are.
 */
export async function mendShelf(
  tables: DocumentTables,
  reedId: Id,
  known: readonly Id[] = [],
): Promise<boolean> {
  const shelf = await tables.shelves.get(reedId);
  const named = (await standingOn(tables, shelf)).map(({ id }) => id);
  const stored = await tables.passes.bulkGet([...new Set([...known, ...named])]);
  const own = stored.flatMap((row) => (row && reedIn(row) === reedId ? [readRow(row)] : []));
  const after = headsText(reedId, [], own);
  const isSound = after.heads === '[]' ? shelf === undefined : canonicalJson(shelf) === canonicalJson(after);
  if (!isSound) await putShelves(tables, [after]);
  return !isSound;
}

function groupBy<T, K>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}

/** Inside a transaction: writes rows where they belong. @returns Whose shelves have changed. */
export async function putStored(tables: DocumentTables, rows: readonly StoredRow[]): Promise<readonly Id[]> {
  const passes = rows.filter(isPass);
  const others = rows.filter((row) => !isPass(row));
  if (others.length > 0) await tables.documents.bulkPut(others);
  if (passes.length === 0) return [];
  const ids = passes.map(({ id }) => id);
  const before = (await tables.passes.bulkGet(ids)).filter((row) => row !== undefined);
  await tables.documents.bulkDelete(ids);
  await tables.passes.bulkPut(passes);
  return shelve(tables, ids, passes, before.map(reedIn));
}

/** Inside a transaction: removes rows wherever they are. @returns Whose shelves have changed. */
export async function deleteStored(tables: DocumentTables, ids: readonly Id[]): Promise<readonly Id[]> {
  await tables.documents.bulkDelete([...ids]);
  const passes = (await tables.passes.bulkGet([...ids])).filter((row) => row !== undefined);
  if (passes.length === 0) return [];
  await tables.passes.bulkDelete(passes.map(({ id }) => id));
  return shelve(
    tables,
    passes.map(({ id }) => id),
    [],
    passes.map(reedIn),
  );
}

/** How many rows are moved in one go. */
const SLICE = 200;

/** Inside an upgrade: moves the passes of a library in which they stood among the other documents. */
export async function partPasses(tables: DocumentTables): Promise<void> {
  const ids = await tables.documents.toCollection().primaryKeys();
  for (let at = 0; at < ids.length; at += SLICE) {
    const rows = (await tables.documents.bulkGet(ids.slice(at, at + SLICE))).filter(
      (row) => row !== undefined,
    );
    const moved = rows.map((stored) => {
      const row = readRow(stored);
      return toStored(row.id, row.sides, row);
    });
    await tables.documents.bulkDelete(rows.filter(isPass).map(({ id }) => id));
    await putStored(tables, moved);
  }
}
