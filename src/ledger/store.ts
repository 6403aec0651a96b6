import type { Id } from '../../shared/ids.ts';
import type { Gone, LibraryDocument, NotChosen } from '../../shared/library.ts';
import { FormatError, InputError } from '../../shared/errors.ts';
import type { Pass } from '../../shared/pass.ts';
import { actSchema, type Act } from '../../shared/round.ts';
import type { Versions } from '../../shared/stamp.ts';
import type { Database, DeviceState, StoredAttachment } from './database.ts';
import { stampDrafts, type Stamping, type Step, type WholeDraft } from './drafts.ts';
import { readRow, toStored, type Row } from './rows.ts';
import { ConflictError } from './errors.ts';
import { addGone, goneOf } from './gone.ts';
import { addNotChosen, dropNotChosen, readNotChosen } from './not-chosen.ts';
import { joinVersions, compareVersions } from './versions.ts';
import { mergeSides, type Siblings } from './sides.ts';
import { deleteStored, getStored, putStored, standingOn, tablesOf } from './tables.ts';

/** An act without its stamp. Give an `id` where a later act must refer to it before this one is kept. */
export type ActDraft = WithoutActStamp<Act>;
type WithoutActStamp<A> = A extends Act
  ? Omit<A, 'id' | 'deviceId' | 'seq' | 'at'> & { readonly id?: Id; readonly at?: string }
  : never;

/** How many acts of a round the caller had seen when it closed it. */
export interface SeenActs {
  readonly roundId: Id;
  readonly count: number;
}

/** What goes into the same transaction as some drafts. */
export interface TransactionExtras {
  readonly seen?: SeenActs | undefined;
  readonly attachments?: readonly StoredAttachment[];
}

/** What was written in one change. */
export interface Written {
  readonly steps: readonly Step[];
  /** Reeds on whose shelves passes have changed. */
  readonly shelves: readonly Id[];
  readonly notChosen?: readonly NotChosen[];
  readonly gone?: readonly Gone[];
}

/** Who writes, and when. */
export type WriteContext = Omit<Stamping, 'write'>;

/** A remembered list; nothing remembered is an empty one. */
export const listOf = (remembered: unknown): readonly unknown[] =>
  Array.isArray(remembered) ? remembered : [];

/** How many changes and acts this device has written. */
export async function countOf(db: Database): Promise<number> {
  const device = await db.device.get('device');
  return device ? device.writes + device.acts : 0;
}

/** Where it is remembered which devices this library was before it was put back. */
export const DEVICES_BEFORE = 'devices before';

/**
 * This device's id, made when there is none. A library that is older than what is known of its device was put back by
 * the browser: it goes on as a new device, so that no count is given twice, and remembers which one it was.
 *
 * @param knownCount How many changes of a device are known elsewhere.
 */
export async function openDevice(
  db: Database,
  makeDeviceId: () => Id,
  knownCount: (deviceId: Id) => Promise<number>,
): Promise<Id> {
  const before = await db.device.get('device');
  const known = before ? await knownCount(before.id) : 0;
  return db.transaction('rw', [db.device, db.remembered], async () => {
    const found = await db.device.get('device');
    if (found && (found.id !== before?.id || (await countOf(db)) >= known)) return found.id;
    const made: DeviceState = { key: 'device', id: makeDeviceId(), writes: 0, acts: 0 };
    await db.device.put(made);
    if (found) {
      const earlier = (await db.remembered.get(DEVICES_BEFORE))?.value;
      await db.remembered.put({ key: DEVICES_BEFORE, value: [...listOf(earlier), found.id] });
    }
    return made.id;
  });
}

/** This device's id where nothing may be written. */
export async function readDevice(db: Database, makeDeviceId: () => Id): Promise<Id> {
  return (await db.device.get('device'))?.id ?? makeDeviceId();
}

/** @throws InputError before the device is opened. */
export async function deviceOf(db: Database): Promise<DeviceState> {
  const device = await db.device.get('device');
  if (!device) throw new InputError('device: must have been opened, got none');
  return device;
}

/** Inside a transaction: the next number of one of this device's counters. */
export async function count(db: Database, counter: 'writes' | 'acts'): Promise<number> {
  const device = await deviceOf(db);
  const next = { ...device, [counter]: device[counter] + 1 };
  await db.device.put(next);
  return next[counter];
}

export async function readRows(db: Database, ids: readonly Id[]): Promise<(Row | undefined)[]> {
  return (await getStored(db, ids)).map((row) => row && readRow(row));
}

/** A reed's passes in use, with their readings. */
export async function readPasses(db: Database, reedId: Id): Promise<readonly Pass[]> {
  const shelf = await db.shelves.get(reedId);
  const rows = await readRows(
    db,
    (await standingOn(db, shelf)).map(({ id }) => id),
  );
  const first = rows.flatMap((row) => row?.shown[0] ?? []);
  return first.flatMap((one) => (one.kind === 'pass' && one.deletedAt === undefined ? [one] : []));
}

function putSteps(
  db: Database,
  rows: readonly (Row | undefined)[],
  steps: readonly Step[],
): Promise<readonly Id[]> {
  return putStored(
    db,
    steps.map(({ after }, i) => {
      const row = rows[i];
      return toStored(after.id, mergeSides([...(row?.sides ?? []), after]), row);
    }),
  );
}

/** Writes drafts in one transaction; nothing is written unless all can be. @throws ConflictError */
export async function writeDrafts(
  db: Database,
  drafts: readonly WholeDraft[],
  clocked: WriteContext,
  { seen, attachments = [] }: TransactionExtras = {},
): Promise<Written> {
  const ids = drafts.map(({ id }) => id);
  return db.transaction('rw', [...tablesOf(db), db.acts, db.device, db.attachments], async () => {
    if (seen && (await db.acts.where('roundId').equals(seen.roundId).count()) !== seen.count) {
      throw new ConflictError([]);
    }
    // Both at once: each question to the database takes its time on the way.
    const [rows, write] = await Promise.all([readRows(db, ids), count(db, 'writes')]);
    const steps = stampDrafts(drafts, rows, { ...clocked, write });
    const shelves = await putSteps(db, rows, steps);
    if (attachments.length > 0) await db.attachments.bulkPut([...attachments]);
    return { steps, shelves };
  });
}

/** Puts documents into the bin or takes them out, whatever was last written in them. */
export async function writeDeletion(
  db: Database,
  ids: readonly Id[],
  deletedAt: string | undefined,
  clocked: WriteContext,
): Promise<Written> {
  return db.transaction('rw', [...tablesOf(db), db.device], async () => {
    const rows = await readRows(db, ids);
    const drafts = rows.flatMap((row) => {
      const [first] = row?.shown ?? [];
      if (!first) return [];
      const draft = { ...first };
      if (deletedAt === undefined) delete draft.deletedAt;
      else draft.deletedAt = deletedAt;
      return [draft];
    });
    if (drafts.length < ids.length) throw new InputError('ids: must name documents of this library');
    const steps = stampDrafts(drafts, rows, { ...clocked, write: await count(db, 'writes') });
    return { steps, shelves: await putSteps(db, rows, steps) };
  });
}

/** Under which key something is remembered of a document. */
export const keyOfDocument = (id: Id) => `of ${id}`;

/** Tables from which something is removed for good. */
export const tablesOfRemoval = (db: Database) => [
  ...tablesOf(db),
  db.acts,
  db.attachments,
  db.copies,
  db.gone,
  db.remembered,
];

/**
 * Inside a transaction: removes documents with the acts of rounds among them, and remembers that they are gone.
 *
 * @returns Whose shelves have changed.
 */
export async function removeForGood(db: Database, gone: readonly Gone[]): Promise<readonly Id[]> {
  if (gone.length === 0) return [];
  const ids = gone.map(({ id }) => id);
  const rows = await readRows(db, ids);
  const shelves = await deleteStored(db, ids);
  await db.acts.where('roundId').anyOf(ids).delete();
  await db.remembered.bulkDelete(ids.map(keyOfDocument));
  await dropNotChosen(db, ids);
  if (rows.some((row) => row?.sides.some(({ kind }) => kind === 'photo'))) await dropUnusedPictures(db);
  await addGone(db, gone);
  return shelves;
}

/** Removes documents in the bin for good, on this device only. */
export async function purgeRows(db: Database, ids: readonly Id[], now: string): Promise<Written> {
  return db.transaction('rw', [...tablesOfRemoval(db), db.device], async () => {
    const rows = await readRows(db, ids);
    const inBin = rows.every((row) => row?.shown.every(({ deletedAt }) => deletedAt !== undefined));
    if (!inBin) throw new InputError('ids: must name documents in the bin');
    const gone = rows.flatMap((row) => (row ? [goneOf(row.id, row.sides, now)] : []));
    const shelves = await removeForGood(db, gone);
    await count(db, 'writes');
    return { steps: [], gone, shelves };
  });
}

/** Inside a transaction: removes pictures that no photo of the library shows any more. */
async function dropUnusedPictures(db: Database): Promise<void> {
  const used = new Set<string>();
  const use = (side: unknown) => {
    const { kind, sha256 } = (side ?? {}) as { readonly kind?: unknown; readonly sha256?: unknown };
    if (kind === 'photo') used.add(String(sha256));
  };
  await db.documents.each(({ sides }) => sides.forEach(use));
  (await readNotChosen(db)).notChosen.forEach(({ side }) => use(side));
  await db.attachments
    .where('sha256')
    .noneOf([...used])
    .delete();
}

const sameVersions = (a: readonly Versions[], b: readonly Versions[]) =>
  a.length === b.length && a.every((one) => b.some((other) => compareVersions(one, other) === 'same'));

/**
 * Ends a disagreement: `chosen` replaces every side. All sides are kept as not chosen, for what is chosen may be taken
 * back.
 *
 * @param seen The sides that the maker was shown.
 * @throws ConflictError when the sides have changed since.
 */
export async function writeSettlement(
  db: Database,
  chosen: LibraryDocument,
  seen: Siblings,
  { writerId, now }: WriteContext,
): Promise<Written> {
  return db.transaction('rw', [...tablesOf(db), db.copies, db.device], async () => {
    const [row] = await readRows(db, [chosen.id]);
    const stand = row?.shown ?? [];
    const versions = stand.map((side) => side.versions);
    if (
      !sameVersions(
        versions,
        seen.map((side) => side.versions),
      )
    ) {
      throw new ConflictError([{ mine: chosen, ...(stand[0] && { theirs: stand[0] }) }]);
    }
    const joined = { ...joinVersions(versions), [writerId]: await count(db, 'writes') };
    const settled = { ...chosen, versions: joined, updatedAt: now };
    const notChosen = stand.map((side) => ({ at: now, side }));
    await addNotChosen(db, notChosen);
    const shelves = await putStored(db, [toStored(chosen.id, [settled], row)]);
    return { steps: [{ before: stand[0] ?? chosen, after: settled }], notChosen, shelves };
  });
}

/** @throws FormatError */
export function checkAct(draft: ActDraft, { writerId, now, newId }: WriteContext): Act {
  const act = { at: now, id: newId(), ...draft, deviceId: writerId, seq: 1 };
  const { success, data, error } = actSchema.safeParse(act);
  if (success) return data;
  throw new FormatError(
    error.issues.map(({ path, message }) => ({ where: path.join('.') || 'act', what: message })),
  );
}

/**
 * Adds a checked act to the log of its round, in a transaction of its own, with this device's next number.
 *
 * @throws InputError when the round is closed.
 */
export async function writeAct(db: Database, checked: Act): Promise<Act> {
  return db.transaction('rw', [...tablesOf(db), db.acts, db.device], async () => {
    const [row] = await readRows(db, [checked.roundId]);
    const round = row?.shown[0];
    if (round?.kind !== 'round') throw new InputError('roundId: must name a round of this library');
    if (round.closedAs !== undefined) throw new InputError('This round is closed; begin a new one.');
    const act = { ...checked, seq: await count(db, 'acts') };
    await db.acts.add(act);
    return act;
  });
}
