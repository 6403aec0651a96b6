import { makeId, type Id } from '../../shared/ids.ts';
import { moment } from '../../shared/moment.ts';
import type { Act } from '../../shared/round.ts';
import { compareText } from './canonical.ts';
import { sealed } from './journal/seal.ts';
import { entryText } from './library-file.ts';
import type { Holdings } from './merge.ts';
import { preparePhoto } from './photos.ts';
import type { Incoming } from './whole-library.ts';
import { checkEverything, readPortions, readWhole } from './read-library.ts';
import { mergeIncoming, planIncoming } from './store-library.ts';
import { makeCache, type Cache } from './cache.ts';
import { connect, type Connection } from './database.ts';
import { prepareDrafts, type Draft, type WholeDraft } from './drafts.ts';
import { ConflictError, StorageError, type StorageTrouble } from './errors.ts';
import { readNotChosen } from './not-chosen.ts';
import { readLate } from './late-acts.ts';
import { readHealth } from './health.ts';
import type { Kept, Ledger, LedgerOptions } from './ledger-face.ts';
import { openNotices, type Notices } from './notices.ts';
import { readActs } from './rows.ts';
import { mendShelf, tablesOf } from './tables.ts';
import {
  checkAct,
  openDevice,
  readDevice,
  readPasses,
  readRows,
  keyOfDocument,
  purgeRows,
  writeAct,
  writeDeletion,
  writeDrafts,
  writeSettlement,
  type TransactionExtras,
  type WriteContext,
  type Written,
} from './store.ts';

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
      const { steps, notChosen = [], gone = [], shelves } = await write(parts, work);
      notices.tell({ what: 'documents', ids, shelves, here: true });
      await note({ documents: steps.map(({ after }) => after), acts: [], notChosen, gone });
      return { label, steps };
    } catch (error) {
      if (error instanceof ConflictError) cache.markStale({ ids });
      throw error;
    }
  }

  async function keep(drafts: readonly Draft[], label: string, beside: TransactionExtras): Promise<Kept> {
    const { now, newId } = clocked();
    const whole = prepareDrafts(drafts, now, newId);
    return change(idsOf(whole), label, () => writeDrafts(db, whole, clocked(), beside));
  }

  const mark = (ids: readonly Id[], deletedAt: string | undefined, label: string) =>
    change(ids, label, () => writeDeletion(db, ids, deletedAt, clocked()));

  return {
    keep: (drafts, label, seen) => keep(drafts, label, { seen }),
    async keepPhoto(about, bytes, label) {
      const { draft, attachment } = await preparePhoto(about, bytes);
      return keep([draft], label, { attachments: [attachment] });
    },
    remove: (ids, label) => mark(ids, clocked().now, label),
    restore: (ids, label) => mark(ids, undefined, label),
    async purge(ids) {
      await change(ids, '', () => purgeRows(db, ids, clocked().now));
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
  | 'recallOf'
  | 'rememberOf'
> {
  const { db, run, notices, note } = parts;
  return {
    readWhole: () => run(() => readWhole(db)),
    portions: (changed) => run(() => readPortions(db, changed)),
    goneOf: (ids) => run(() => db.gone.where('id').anyOf(ids).toArray()),
    compare: async (incoming, taking) => (await run(() => planIncoming(db, incoming, taking))).report,
    async merge(incoming, taking) {
      const taken = await write(parts, () => mergeIncoming(db, incoming, taking));
      const { report, documents, acts, shelves } = taken;
      const where = { here: true, ...(taking?.isShared && { isShared: true }) };
      notices.tell({ what: 'documents', ids: idsIn(incoming), shelves, ...where });
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
      if (ids.length + found.mended.length > 0) notices.tell({ what: 'documents', ids, here: true });
      return found;
    },
    photoBytes: async (hash) => (await run(() => db.attachments.get(hash)))?.bytes,
    recall: async (key) => (await run(() => db.remembered.get(key)))?.value,
    async remember(key, value) {
      await write(parts, () => db.remembered.put({ key, value }));
    },
    async recallOf(ids) {
      const rows = await run(() => db.remembered.bulkGet(ids.map(keyOfDocument)));
      return new Map(ids.flatMap((id, i) => (rows[i] ? [[id, rows[i].value] as const] : [])));
    },
    async rememberOf(all) {
      const rows = Array.from(all, ([id, value]) => ({ key: keyOfDocument(id), value }));
      await write(parts, () => db.remembered.bulkPut(rows));
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

/** Makes the list of a reed's passes anew, and has it read again. */
async function mend({ db, run, writable }: Connection, notices: Notices, reedId: Id): Promise<void> {
  if (!writable) return;
  await run(() => db.transaction('rw', tablesOf(db), () => mendShelf(db, reedId)));
  notices.tell({ what: 'documents', ids: [], shelves: [reedId], here: true });
}

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
  const cache = makeCache(db, (reedId) => void mend(connection, notices, reedId).catch(() => undefined));
  notices.listen((change) => change.what === 'documents' && cache.markStale(change));
  const parts: Parts = {
    ...connection,
    notices,
    cache,
    held: new Map(),
    clocked: () => ({ writerId, now: now(), newId }),
    async note(holdings) {
      if (journal) await journal.append(await sealed(await entryText(holdings)));
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
