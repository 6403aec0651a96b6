import type { Id } from '../../shared/ids.ts';
import { documentSchema, type LibraryDocument } from '../../shared/library.ts';
import { canonicalJson } from './canonical.ts';
import type { Database, DeviceState, StoredAttachment } from './database.ts';
import { joinPlans, planMerge, type Holdings, type MergePlan } from './merge.ts';
import { migrateDocument } from './migrate.ts';
import { readActs, readRow, toStored, type Row, type SetAside } from './rows.ts';
import { addNotChosen, readNotChosen } from './not-chosen.ts';
import { beyond } from './own-past.ts';
import { placesById, slicesOf } from './slices.ts';
import { count, countOf, deviceOf, readRows } from './store.ts';

/** A whole library, pictures and unreadable records included. */
export interface WholeLibrary extends Holdings {
  readonly attachments: readonly StoredAttachment[];
  readonly setAside: readonly SetAside[];
}

/** What another library brings. A plain library file has no pictures and no unreadable records. */
export type Incoming = Holdings & Partial<Pick<WholeLibrary, 'attachments' | 'setAside'>>;

/** A library, or a part of one, and how many changes this device had made by then. */
export interface Counted extends WholeLibrary {
  readonly count: number;
}

/** What has changed: documents, and rounds whose logs have grown. */
export interface Changed {
  readonly ids: readonly Id[];
  readonly rounds: readonly Id[];
}

/** Everything, as it stood at one moment. */
export async function readWhole(db: Database): Promise<WholeLibrary> {
  const [stored, actRecords, attachments, settled] = await db.transaction(
    'r',
    [db.documents, db.acts, db.attachments, db.copies],
    () =>
      Promise.all([db.documents.toArray(), db.acts.toArray(), db.attachments.toArray(), readNotChosen(db)]),
  );
  const rows = stored.map(readRow);
  const { acts, setAside } = readActs(actRecords);
  return {
    documents: rows.flatMap(({ sides }) => sides),
    acts,
    attachments,
    setAside: [...rows.flatMap((row) => row.setAside), ...setAside, ...settled.setAside],
    notChosen: settled.notChosen,
  };
}

/** The changed documents and the pictures that they show, and the logs that have grown, as they stood at one moment. */
export async function readChanged(db: Database, changed: Changed | 'all'): Promise<Counted> {
  return db.transaction('r', [db.documents, db.acts, db.attachments, db.copies, db.device], async () => {
    const changes = await countOf(db);
    if (changed === 'all') return { ...(await readWhole(db)), count: changes };
    const rows = (await readRows(db, changed.ids)).filter((row) => row !== undefined);
    const { acts, setAside } = readActs(await db.acts.where('roundId').anyOf(changed.rounds).toArray());
    const documents = rows.flatMap(({ sides }) => sides);
    const hashes = documents.flatMap((one) => (one.kind === 'photo' ? [one.sha256] : []));
    const attachments = await db.attachments.where('sha256').anyOf(hashes).toArray();
    const settled = await readNotChosen(db, changed.ids);
    return {
      documents,
      acts,
      attachments,
      setAside: [...rows.flatMap((row) => row.setAside), ...setAside, ...settled.setAside],
      notChosen: settled.notChosen,
      count: changes,
    };
  });
}

/** Records that an older program could not read may be sound to this one: those come in as documents. */
function withReadable(incoming: Incoming): Required<Incoming> {
  const { documents, acts, attachments = [], setAside = [], notChosen = [] } = incoming;
  const readable: LibraryDocument[] = [];
  const unreadable: SetAside[] = [];
  for (const one of setAside) {
    const { success, data } = documentSchema.safeParse(migrateDocument(one.record));
    if (success && one.of === 'documents') readable.push(data);
    else unreadable.push(one);
  }
  return { documents: [...documents, ...readable], acts, attachments, setAside: unreadable, notChosen };
}

/** A plan, and what it was made on. */
interface Planned extends MergePlan {
  readonly rows: ReadonlyMap<Id, Row>;
  readonly device: DeviceState;
}

const nothingHere = () => undefined;

/** Inside a transaction: what taking the library in would mean, worked out in slices. @throws FormatError */
async function plan(db: Database, { documents, acts }: Holdings): Promise<Planned> {
  const device = beyond(await deviceOf(db), { documents, acts });
  const plans: MergePlan[] = [];
  const rows = new Map<Id, Row>();
  for (const places of placesById(documents)) {
    const slice = places.map((place) => documents[place]!);
    for (const row of await readRows(db, [...new Set(slice.map(({ id }) => id))]))
      if (row) rows.set(row.id, row);
    const here = (id: Id) => rows.get(id)?.sides ?? [];
    const placeOf = (_: string, i: number) => `documents.${places[i]}`;
    plans.push(planMerge(here, nothingHere, { documents: slice, acts: [] }, placeOf));
  }
  for (const places of placesById(acts)) {
    const slice = places.map((place) => acts[place]!);
    const records = (await db.acts.bulkGet(slice.map(({ id }) => id))).filter((one) => one !== undefined);
    const here = new Map(readActs(records).acts.map((act) => [act.id, act]));
    const placeOf = (_: string, i: number) => `acts.${places[i]}`;
    plans.push(
      planMerge(
        () => [],
        (id) => here.get(id),
        { documents: [], acts: slice },
        placeOf,
      ),
    );
  }
  return { ...joinPlans(plans), rows, device };
}

export async function planIncoming(db: Database, incoming: Incoming): Promise<MergePlan> {
  const whole = withReadable(incoming);
  return db.transaction('r', [db.documents, db.acts, db.device], () => plan(db, whole));
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
export async function mergeIncoming(db: Database, incoming: Incoming): Promise<MergePlan> {
  const whole = withReadable(incoming);
  return db.transaction('rw', [db.documents, db.acts, db.attachments, db.copies, db.device], async () => {
    const made = await plan(db, whole);
    for (const slice of slicesOf(made.documents))
      await db.documents.bulkPut(slice.map(({ id, sides }) => toStored(id, sides, made.rows.get(id))));
    for (const slice of slicesOf(made.acts)) await db.acts.bulkAdd([...slice]);
    for (const picture of whole.attachments) await db.attachments.put(picture);
    await addSetAside(db, whole.setAside);
    await addNotChosen(db, whole.notChosen ?? []);
    await db.device.put(made.device);
    await count(db, 'writes');
    return made;
  });
}
