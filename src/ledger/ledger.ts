import { makeId, type Id } from '../../shared/ids.ts';
import type { DocumentKind, Gone, LibraryDocument, NotChosen } from '../../shared/library.ts';
import { moment } from '../../shared/moment.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Act } from '../../shared/round.ts';
import { compareText } from './canonical.ts';
import type { Journal } from './journal/journal.ts';
import { entryText } from './library-file.ts';
import type { Holdings, MergeReport } from './merge.ts';
import type { ProgressOptions } from './patience.ts';
import { preparePhoto, type AboutPhoto } from './photos.ts';
import type { Changed, Incoming, WholeLibrary } from './whole-library.ts';
import { checkEverything, readPortions, readWhole, type Checked, type Portions } from './read-library.ts';
import { mergeIncoming, planIncoming, type Taking } from './store-library.ts';
import { makeCache, type Cache } from './cache.ts';
import { connect, type Connection } from './database.ts';
import { prepareDrafts, type Draft, type Step, type WholeDraft } from './drafts.ts';
import { ConflictError, StorageError, type StorageTrouble } from './errors.ts';
import { readNotChosen } from './not-chosen.ts';
import { readLate, type LateRound } from './late-acts.ts';
import { readHealth, type Health, type StorageManagerLike } from './health.ts';
import { openNotices, type ChangeListener, type Notices } from './notices.ts';
import { readActs } from './rows.ts';
import type { Siblings } from './sides.ts';
import type { Snapshot } from './snapshot.ts';
import {
  checkAct,
  openDevice,
  readDevice,
  readPasses,
  readRows,
  purgeRows,
  writeAct,
  writeDeletion,
  writeDrafts,
  writeSettlement,
  type ActDraft,
  type TransactionExtras,
  type WriteContext,
  type SeenActs,
  type Written,
} from './store.ts';

export interface LedgerOptions {
  /** Name of the database. */
  readonly name?: string;
  readonly clock?: () => Date;
  /** Fresh random bytes. */
  readonly random?: (count: number) => Uint8Array;
  /** Called while another window holds the opening up: the maker should close it. */
  readonly onWaiting?: () => void;
  readonly storage?: StorageManagerLike;
  /** Where a change is written besides, before it is called kept. Pictures are not. */
  readonly journal?: Pick<Journal, 'append'>;
  /** How many changes of a device are in a copy outside the database. */
  readonly knownCount?: (deviceId: Id) => Promise<number>;
}

/** One accepted change, as it was written. */
export interface Kept {
  readonly label: string;
  readonly steps: readonly Step[];
}

/** The one place where a maker's library is kept. */
export interface Ledger {
  readonly deviceId: Id;
  /** False when a newer version of the program owns the library: it can then only be read. */
  readonly writable: boolean;
  readonly newId: () => Id;
  /** Local time with offset, by the ledger's clock. */
  readonly now: () => string;
  readonly read: () => Promise<Snapshot>;
  /** Documents in use of one kind. */
  readonly documents: <K extends DocumentKind>(kind: K) => Promise<Snapshot['live'][K]>;
  /** A reed's passes with their readings, those in use. */
  readonly passesOf: (reedId: Id) => Promise<readonly Pass[]>;
  /** A document in use or in the bin. */
  readonly get: (id: Id) => Promise<LibraryDocument | undefined>;
  /**
   * Keeps one change, whole or not at all; resolves when it is on the disk. A draft with `versions` changes the
   * document that was read with them.
   *
   * @param seen When the change closes a round: how many acts were folded into its pass.
   * @throws FormatError, ConflictError, StorageError
   */
  readonly keep: (drafts: readonly Draft[], label: string, seen?: SeenActs) => Promise<Kept>;
  /** Puts documents into the bin. */
  readonly remove: (ids: readonly Id[], label: string) => Promise<Kept>;
  /** Takes documents out of the bin. */
  readonly restore: (ids: readonly Id[], label: string) => Promise<Kept>;
  /** Removes documents in the bin for good, from this device only. Cannot be undone. */
  readonly purge: (ids: readonly Id[]) => Promise<void>;
  /** Ends a disagreement with what the maker chose, or takes what was not chosen; all sides are kept as not chosen. */
  readonly settle: (chosen: LibraryDocument, seen: Siblings, label: string) => Promise<Kept>;
  /** Adds to the log of an open round; resolves when it is on the disk. Calls keep their order. */
  readonly appendAct: (draft: ActDraft) => Promise<Act>;
  /** Sides that were not chosen where devices had disagreed. */
  readonly notChosen: () => Promise<readonly NotChosen[]>;
  /** A round's log, in the order of its counts. */
  readonly actsOf: (roundId: Id) => Promise<readonly Act[]>;
  /** Acts that this window has read or was given, in the order of their counts: what is left of them when the database is gone. */
  readonly heldActs: () => readonly Act[];
  /** Finished rounds with acts that came too late for their pass, and that nobody has decided on. */
  readonly lateRounds: () => Promise<readonly LateRound[]>;
  /** Keeps a photograph and its document together. @throws InputError when it is too large or no picture. */
  readonly keepPhoto: (about: AboutPhoto, bytes: Uint8Array, label: string) => Promise<Kept>;
  /** The bytes of a photograph; nothing when only its document came here. */
  readonly photoBytes: (sha256: string) => Promise<Uint8Array | undefined>;
  /** Everything at once; for a small library. */
  readonly readWhole: () => Promise<WholeLibrary>;
  /** A part of the library, or all of it, in portions: for a copy of any size. */
  readonly portions: (changed: Changed | 'all') => Promise<Portions>;
  /** What is remembered of documents that were removed for good. */
  readonly goneOf: (ids: readonly Id[]) => Promise<readonly Gone[]>;
  /** What `merge` would do. @throws FormatError */
  readonly compare: (incoming: Incoming, taking?: Taking) => Promise<MergeReport>;
  /** Takes another library in, whole or not at all. Nothing that is here is lost. @throws FormatError */
  readonly merge: (incoming: Incoming, taking?: Taking) => Promise<MergeReport>;
  /** Looks at every record, whatever was found sound before. What is not is set aside from then on. */
  readonly checkAll: (patience?: ProgressOptions) => Promise<Checked>;
  /** Small things to remember about this device that are no part of the library. */
  readonly recall: (key: string) => Promise<unknown>;
  readonly remember: (key: string, value: unknown) => Promise<void>;
  readonly onChange: (listener: ChangeListener) => () => void;
  readonly health: () => Promise<Health>;
  /** Asks the browser not to clear the library away. Returns its answer. */
  readonly requestPersistence: () => Promise<boolean>;
  readonly close: () => void;
}

const bySequence = (a: Act, b: Act) =>
  a.seq - b.seq || compareText(a.deviceId, b.deviceId) || compareText(a.id, b.id);

/** What the parts of a ledger share. */
interface Parts extends Connection {
  readonly notices: Notices;
  readonly cache: Cache;
  readonly clocked: () => WriteContext;
  readonly held: Map<Id, Act>;
  /** Writes a change to the journal; its listeners have been told of it by then. */
  readonly note: (holdings: Holdings) => Promise<void>;
}

function reading({
  db,
  run,
  cache,
  held,
}: Parts): Pick<
  Ledger,
  'read' | 'documents' | 'passesOf' | 'get' | 'notChosen' | 'actsOf' | 'heldActs' | 'lateRounds'
> {
  const read = () => run(cache.read);
  return {
    read,
    documents: async (kind) => (await read()).live[kind],
    passesOf: (reedId) => run(() => readPasses(db, reedId)),
    get: async (id) => (await run(() => readRows(db, [id])))[0]?.shown[0],
    notChosen: async () => (await run(() => readNotChosen(db))).notChosen,
    heldActs: () => [...held.values()].sort(bySequence),
    lateRounds: () => run(() => readLate(db)),
    async actsOf(roundId) {
      const records = await run(() => db.acts.where('roundId').equals(roundId).toArray());
      const acts = readActs(records).acts.sort(bySequence);
      for (const act of acts) held.set(act.id, act);
      return acts;
    },
  };
}

async function write<T>({ writable, run }: Parts, work: () => Promise<T>): Promise<T> {
  if (!writable) throw new StorageError('newer');
  return run(work);
}

function writing(
  parts: Parts,
): Pick<Ledger, 'keep' | 'keepPhoto' | 'remove' | 'restore' | 'purge' | 'settle' | 'appendAct'> {
  const { db, notices, cache, clocked, note, held } = parts;

  async function change(ids: readonly Id[], label: string, work: () => Promise<Written>): Promise<Kept> {
    try {
      const { steps, notChosen = [], gone = [] } = await write(parts, work);
      notices.tell({ what: 'documents', ids, here: true });
      await note({ documents: steps.map(({ after }) => after), acts: [], notChosen, gone });
      return { label, steps };
    } catch (error) {
      if (error instanceof ConflictError) cache.markStale(ids);
      throw error;
    }
  }

  async function keep(drafts: readonly Draft[], label: string, beside: TransactionExtras): Promise<Kept> {
    const { now, newId } = clocked();
    const whole = prepareDrafts(drafts, now, newId);
    return change(idsOf(whole), label, async () => ({
      steps: await writeDrafts(db, whole, clocked(), beside),
    }));
  }

  const mark = (ids: readonly Id[], deletedAt: string | undefined, label: string) =>
    change(ids, label, async () => ({ steps: await writeDeletion(db, ids, deletedAt, clocked()) }));

  return {
    keep: (drafts, label, seen) => keep(drafts, label, { seen }),
    async keepPhoto(about, bytes, label) {
      const { draft, attachment } = await preparePhoto(about, bytes);
      return keep([draft], label, { attachments: [attachment] });
    },
    remove: (ids, label) => mark(ids, clocked().now, label),
    restore: (ids, label) => mark(ids, undefined, label),
    async purge(ids) {
      await change(ids, '', async () => ({ steps: [], gone: await purgeRows(db, ids, clocked().now) }));
    },
    async settle(chosen, seen, label) {
      const { now, newId } = clocked();
      const whole = prepareDrafts([chosen], now, newId);
      return change(idsOf(whole), label, () => writeSettlement(db, chosen, seen, clocked()));
    },
    async appendAct(draft) {
      const checked = checkAct(draft, clocked());
      const last = Math.max(0, ...[...held.values()].map(({ seq }) => seq));
      held.set(checked.id, { ...checked, seq: last + 1 });
      const act = await write(parts, () => writeAct(db, checked));
      held.set(act.id, act);
      notices.tell({ what: 'acts', roundId: act.roundId, here: true });
      await note({ documents: [], acts: [act] });
      return act;
    },
  };
}

function wholes(
  parts: Parts,
): Pick<
  Ledger,
  | 'readWhole'
  | 'portions'
  | 'goneOf'
  | 'checkAll'
  | 'compare'
  | 'merge'
  | 'photoBytes'
  | 'recall'
  | 'remember'
> {
  const { db, run, notices, note } = parts;
  return {
    readWhole: () => run(() => readWhole(db)),
    portions: (changed) => run(() => readPortions(db, changed)),
    goneOf: (ids) => run(() => db.gone.where('id').anyOf(ids).toArray()),
    compare: async (incoming, taking) => (await run(() => planIncoming(db, incoming, taking))).report,
    async merge(incoming, taking) {
      const { report, documents, acts } = await write(parts, () => mergeIncoming(db, incoming, taking));
      const where = { here: true, ...(taking?.isShared && { isShared: true }) };
      notices.tell({ what: 'documents', ids: idsIn(incoming), ...where });
      for (const roundId of new Set(acts.map((act) => act.roundId))) {
        notices.tell({ what: 'acts', roundId, ...where });
      }
      const { notChosen = [], gone = [] } = incoming;
      await note({ documents: documents.flatMap(({ sides }) => sides), acts, notChosen, gone });
      return report;
    },
    async checkAll(patience) {
      const found = await write(parts, () => checkEverything(db, patience));
      const ids = found.setAside.map(({ id }) => id);
      if (ids.length > 0) notices.tell({ what: 'documents', ids, here: true });
      return found;
    },
    photoBytes: async (hash) => (await run(() => db.attachments.get(hash)))?.bytes,
    recall: async (key) => (await run(() => db.remembered.get(key)))?.value,
    async remember(key, value) {
      await write(parts, () => db.remembered.put({ key, value }));
    },
  };
}

/** Every document that taking it in may have touched. */
function idsIn({ documents, setAside = [], gone = [], notChosen = [] }: Incoming): Id[] {
  const sides = notChosen.map(({ side }) => side);
  return [...new Set([...documents, ...setAside, ...gone, ...sides].map(({ id }) => id))];
}

const idsOf = (documents: readonly WholeDraft[]) => documents.map(({ id }) => id);
const browserRandom = (count: number) => crypto.getRandomValues(new Uint8Array(count));
const browserStorage = () => (globalThis.navigator as Navigator | undefined)?.storage;

/**
 * Opens the library of this browser.
 *
 * @throws StorageError when it cannot be opened, in words.
 */
export async function openLedger(options: LedgerOptions = {}): Promise<Ledger> {
  const { name = 'hundredths', clock = () => new Date(), random = browserRandom } = options;
  const { onWaiting = () => undefined, storage = browserStorage() } = options;
  const { knownCount = () => Promise.resolve(0), journal } = options;
  const newId = () => makeId(clock().getTime(), random(10));
  const now = () => moment(clock());
  const notices = openNotices(name);
  const onClosed = (trouble: StorageTrouble) => notices.tellHere({ what: 'closed', trouble });
  const connection = await connect(name, onWaiting, onClosed).catch((error: unknown) => {
    notices.close();
    throw error;
  });
  const { db, writable } = connection;
  const deviceId = await connection.run(() =>
    writable ? openDevice(db, newId, knownCount) : readDevice(db, newId),
  );
  if (writable) connection.expect(deviceId);
  const writerId = newId();
  const cache = makeCache(db);
  notices.listen((change) => change.what === 'documents' && cache.markStale(change.ids));
  const parts: Parts = {
    ...connection,
    notices,
    cache,
    held: new Map(),
    clocked: () => ({ writerId, now: now(), newId }),
    async note(holdings) {
      await journal?.append(await entryText(holdings));
    },
  };
  return {
    deviceId,
    writable,
    newId,
    now,
    ...reading(parts),
    ...writing(parts),
    ...wholes(parts),
    onChange: notices.listen,
    health: () => readHealth(storage, writable && connection.isOpen()),
    requestPersistence: async () => (await storage?.persist()) ?? false,
    close() {
      notices.close();
      connection.close();
    },
  };
}
