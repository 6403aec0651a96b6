import type { Id } from '../../shared/ids.ts';
import { documentSchema, type Gone, type LibraryDocument } from '../../shared/library.ts';
import type { Table } from 'dexie';
import { canonicalJson } from './canonical.ts';
import type { Database, DeviceState, StoredAttachment } from './database.ts';
import { joinPlans, planMerge, type Holdings, type MergePlan } from './merge.ts';
import { goneById, isGone } from './gone.ts';
import { migrateDocument } from './migrate.ts';
import { readActs, readRow, toStored, type Row, type SetAside } from './rows.ts';
import { addNotChosen, readNotChosen } from './not-chosen.ts';
import { beyond } from './own-past.ts';
import { placesById, slicesOf } from './slices.ts';
import { count, countOf, deviceOf, readRows, removeForGood, tablesOfRemoval } from './store.ts';

/** A whole library, pictures and unreadable records included. */
export interface WholeLibrary extends Holdings {
  readonly attachments: readonly StoredAttachment[];
  readonly setAside: readonly SetAside[];
}

/** Documents, acts and the like in one portion. A portion is an entry of a bundle. Our own number. */
export const PORTION = 250;

export const NOTHING: WholeLibrary = { documents: [], acts: [], attachments: [], setAside: [] };

/** What another library brings. A plain library file has no pictures and no unreadable records. */
export type Incoming = Holdings & Partial<Pick<WholeLibrary, 'attachments' | 'setAside'>>;

/** What has changed: documents, and rounds whose logs have grown. */
export interface Changed {
  readonly ids: readonly Id[];
  readonly rounds: readonly Id[];
}

/** Everything, as it stood at one moment; for a small library. */
export async function readWhole(db: Database): Promise<WholeLibrary> {
  const [stored, actRecords, attachments, settled, gone] = await db.transaction(
    'r',
    [db.documents, db.acts, db.attachments, db.copies, db.gone],
    () =>
      Promise.all([
        db.documents.toArray(),
        db.acts.toArray(),
        db.attachments.toArray(),
        readNotChosen(db),
        db.gone.toArray(),
      ]),
  );
  const rows = stored.map(readRow);
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
  return db.transaction('r', [db.documents, db.acts, db.attachments, db.copies, db.gone], async () => {
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

async function* partsOf(db: Database, { ids, rounds }: Changed): AsyncGenerator<WholeLibrary> {
  for (const some of slicesOf(ids, PORTION)) yield readPart(db, some, []);
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
  for await (const stored of rowsIn(db.documents, ({ id }) => id)) {
    const rows = stored.map(readRow);
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
    const length = Math.ceil(changed.ids.length / PORTION) + changed.rounds.length;
    return { count, length, portions: partsOf(db, changed) };
  }
  const [documents, acts, pictures] = [
    await db.documents.count(),
    await db.acts.count(),
    await db.attachments.count(),
  ];
  const length = Math.ceil(documents / PORTION) + Math.ceil(acts / PORTION) + pictures + 1;
  return { count, length, portions: allParts(db) };
}

/** Records that an older program could not read may be sound to this one: those come in as documents. */
function withReadable(incoming: Incoming): Required<Incoming> {
  const { documents, acts, attachments = [], setAside = [], notChosen = [], gone = [] } = incoming;
  const readable: LibraryDocument[] = [];
  const unreadable: SetAside[] = [];
  for (const one of setAside) {
    const { success, data } = documentSchema.safeParse(migrateDocument(one.record));
    if (success && one.of === 'documents') readable.push(data);
    else unreadable.push(one);
  }
  return { documents: [...documents, ...readable], acts, attachments, setAside: unreadable, notChosen, gone };
}

/** A plan, and what it was made on. */
interface Planned extends MergePlan {
  readonly rows: ReadonlyMap<Id, Row>;
  readonly device: DeviceState;
  readonly gone: ReadonlyMap<Id, Gone>;
}

/** How a library is taken in. */
export interface Taking {
  /** It is this very library, from its copy or its journal: what was removed for good there is removed here too. */
  readonly isOwn?: boolean;
}

const nothingHere = () => undefined;
const tablesOfPlan = (db: Database) => [db.documents, db.acts, db.device, db.gone];

async function knownGone(
  db: Database,
  incoming: Required<Incoming>,
  { isOwn }: Taking,
): Promise<Map<Id, Gone>> {
  const ids = new Set([
    ...incoming.documents.map(({ id }) => id),
    ...incoming.acts.map(({ roundId }) => roundId),
  ]);
  const here = (await db.gone.toArray()).filter(({ id }) => ids.has(id));
  return goneById([...here, ...(isOwn ? (incoming.gone ?? []) : [])]);
}

/** Inside a transaction: what taking the library in would mean, worked out in slices. @throws FormatError */
async function plan(db: Database, incoming: Required<Incoming>, taking: Taking): Promise<Planned> {
  const { documents, acts } = incoming;
  const device = beyond(await deviceOf(db), incoming);
  const gone = await knownGone(db, incoming, taking);
  const plans: MergePlan[] = [];
  const rows = new Map<Id, Row>();
  let away = 0;
  for (const places of placesById(documents)) {
    const back = places.filter((place) => !isGone(documents[place]!, gone.get(documents[place]!.id)));
    away += places.length - back.length;
    const slice = back.map((place) => documents[place]!);
    for (const row of await readRows(db, [...new Set(slice.map(({ id }) => id))]))
      if (row) rows.set(row.id, row);
    const here = (id: Id) => rows.get(id)?.sides ?? [];
    const placeOf = (_: string, i: number) => `documents.${back[i]}`;
    plans.push(planMerge(here, nothingHere, { documents: slice, acts: [] }, placeOf));
  }
  const roundsBack = new Set(plans.flatMap((one) => one.documents.map(({ id }) => id)));
  for (const places of placesById(acts)) {
    const back = places.filter(
      (place) => !gone.has(acts[place]!.roundId) || roundsBack.has(acts[place]!.roundId),
    );
    const slice = back.map((place) => acts[place]!);
    const records = (await db.acts.bulkGet(slice.map(({ id }) => id))).filter((one) => one !== undefined);
    const here = new Map(readActs(records).acts.map((act) => [act.id, act]));
    const placeOf = (_: string, i: number) => `acts.${back[i]}`;
    plans.push(
      planMerge(
        () => [],
        (id) => here.get(id),
        { documents: [], acts: slice },
        placeOf,
      ),
    );
  }
  const joined = joinPlans(plans);
  return { ...joined, report: { ...joined.report, gone: away }, rows, device, gone };
}

export async function planIncoming(
  db: Database,
  incoming: Incoming,
  taking: Taking = {},
): Promise<MergePlan> {
  const whole = withReadable(incoming);
  return db.transaction('r', tablesOfPlan(db), () => plan(db, whole, taking));
}

/** Inside a transaction, after the documents: what was removed for good stays away, or goes. */
async function takeGone(db: Database, gone: readonly Gone[], { isOwn }: Taking): Promise<void> {
  const all = [...goneById(gone).values()];
  const rows = await readRows(
    db,
    all.map(({ id }) => id),
  );
  const isAway = (row: Row | undefined, one: Gone) =>
    row === undefined || (isOwn && row.sides.every((side) => isGone(side, one)));
  await removeForGood(
    db,
    all.filter((one, i) => isAway(rows[i], one)),
  );
}

/** Inside a transaction: adds unreadable records beside what is there, each once. */
async function addSetAside(db: Database, setAside: readonly SetAside[]): Promise<void> {
  for (const { of, id, record } of setAside) {
    if (of === 'acts') {
      if (!(await db.acts.get(id))) await db.acts.put(record as { id: string; roundId: string });
      continue;
    }
    if (of === 'notChosen') {
      await addNotChosen(db, [record as { at: unknown; side: unknown }]);
      continue;
    }
    const [row] = await readRows(db, [id]);
    const known = row?.setAside.some((one) => canonicalJson(one.record) === canonicalJson(record));
    if (known) continue;
    const stored = toStored(id, row?.sides ?? [], row);
    await db.documents.put({ ...stored, sides: [...stored.sides, record] });
  }
}

/** Takes a library in: everything in one transaction, or nothing. @throws FormatError */
export async function mergeIncoming(
  db: Database,
  incoming: Incoming,
  taking: Taking = {},
): Promise<MergePlan> {
  const whole = withReadable(incoming);
  return db.transaction('rw', [...tablesOfRemoval(db), db.device], async () => {
    const made = await plan(db, whole, taking);
    for (const slice of slicesOf(made.documents))
      await db.documents.bulkPut(slice.map(({ id, sides }) => toStored(id, sides, made.rows.get(id))));
    for (const slice of slicesOf(made.acts)) await db.acts.bulkAdd([...slice]);
    for (const picture of whole.attachments) await db.attachments.put(picture);
    await addSetAside(db, whole.setAside);
    await addNotChosen(
      db,
      (whole.notChosen ?? []).filter(({ side }) => !made.gone.has(side.id)),
    );
    await takeGone(db, whole.gone ?? [], taking);
    await db.device.put(made.device);
    await count(db, 'writes');
    return made;
  });
}
