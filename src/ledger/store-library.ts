import type { Id } from '../../shared/ids.ts';
import { documentSchema, type Gone, type LibraryDocument } from '../../shared/library.ts';
import type { Act } from '../../shared/round.ts';
import { canonicalJson } from './canonical.ts';
import type { Database, DeviceState } from './database.ts';
import { goneById, isGone } from './gone.ts';
import { noteLate } from './late-acts.ts';
import { joinPlans, planMerge, type MergePlan } from './merge.ts';
import { migrateDocument } from './migrate.ts';
import { addNotChosen } from './not-chosen.ts';
import { readActs, toStored, type Row, type SetAside } from './rows.ts';
import { placesById, slicesOf } from './slices.ts';
import { count, deviceOf, readRows, removeForGood, tablesOfRemoval, type Written } from './store.ts';
import { putStored, tablesOf } from './tables.ts';
import type { Incoming } from './whole-library.ts';

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
  /** It comes from the shared case. */
  readonly isShared?: boolean;
}

const nothingHere = () => undefined;
const tablesOfPlan = (db: Database) => [...tablesOf(db), db.acts, db.device, db.gone];

async function knownGone(
  db: Database,
  incoming: Required<Incoming>,
  { isOwn }: Taking,
): Promise<Map<Id, Gone>> {
  const ids = new Set([
    ...incoming.documents.map(({ id }) => id),
    ...incoming.acts.map(({ roundId }) => roundId),
  ]);
  const here = await db.gone.bulkGet([...ids]);
  return goneById([...here.filter((one) => one !== undefined), ...(isOwn ? (incoming.gone ?? []) : [])]);
}

/** A file that counts beyond this was altered: its counts are not followed. Our own number. */
const MOST_ACTS = 1e9;

/** The device's counter of acts after all that came in: what is done later counts on (a logical clock). */
function after(device: DeviceState, acts: readonly Act[]): DeviceState {
  const counts = acts.map(({ seq }) => seq).filter((seq) => seq < MOST_ACTS);
  return { ...device, acts: counts.reduce((most, seq) => Math.max(most, seq), device.acts) };
}

/** Inside a transaction: what taking the library in would mean, worked out in slices. @throws FormatError */
async function plan(db: Database, incoming: Required<Incoming>, taking: Taking): Promise<Planned> {
  const { documents, acts } = incoming;
  const device = after(await deviceOf(db), acts);
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
  return db.transaction('r', tablesOfPlan(db), async () => plan(db, whole, taking));
}

/** Inside a transaction, after the documents: what was removed for good stays away, or goes. @returns Whose shelves have changed. */
async function takeGone(db: Database, gone: readonly Gone[], { isOwn }: Taking): Promise<readonly Id[]> {
  const all = [...goneById(gone).values()];
  const rows = await readRows(
    db,
    all.map(({ id }) => id),
  );
  const isAway = (row: Row | undefined, one: Gone) =>
    row === undefined || (isOwn && row.sides.every((side) => isGone(side, one)));
  return removeForGood(
    db,
    all.filter((one, i) => isAway(rows[i], one)),
  );
}

/** Inside a transaction: adds unreadable records beside what is there, each once. @returns Whose shelves have changed. */
async function addSetAside(db: Database, setAside: readonly SetAside[]): Promise<Id[]> {
  const shelves: Id[] = [];
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
    shelves.push(...(await putStored(db, [{ id, sides: [...stored.sides, record] }])));
  }
  return shelves;
}

/** Rounds that have changed, or whose logs have grown. */
function roundsIn({ documents, acts }: MergePlan): Id[] {
  const changed = documents.flatMap(({ id, sides: [first] }) => (first?.kind === 'round' ? [id] : []));
  return [...new Set([...changed, ...acts.map(({ roundId }) => roundId)])];
}

/** Takes a library in: everything in one transaction, or nothing. @throws FormatError */
export async function mergeIncoming(
  db: Database,
  incoming: Incoming,
  taking: Taking = {},
): Promise<MergePlan & Pick<Written, 'shelves'>> {
  const whole = withReadable(incoming);
  return db.transaction('rw', [...tablesOfRemoval(db), db.device], async () => {
    const made = await plan(db, whole, taking);
    const shelves = new Set<Id>();
    const put = (changed: readonly Id[]) => changed.forEach((id) => shelves.add(id));
    for (const slice of slicesOf(made.documents))
      put(
        await putStored(
          db,
          slice.map(({ id, sides }) => toStored(id, sides, made.rows.get(id))),
        ),
      );
    for (const slice of slicesOf(made.acts)) await db.acts.bulkAdd([...slice]);
    for (const picture of whole.attachments) await db.attachments.put(picture);
    put(await addSetAside(db, whole.setAside));
    await addNotChosen(
      db,
      (whole.notChosen ?? []).filter(({ side }) => !made.gone.has(side.id)),
    );
    put(await takeGone(db, whole.gone ?? [], taking));
    await noteLate(db, roundsIn(made));
    await db.device.put(made.device);
    await count(db, 'writes');
    return { ...made, shelves: [...shelves] };
  });
}
