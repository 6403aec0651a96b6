import { Dexie, type Table, type Transaction } from 'dexie';
import type { Id } from '../../shared/ids.ts';
import type { Gone } from '../../shared/library.ts';
import { explainStorageError, StorageError } from './errors.ts';
import { migrateDocument } from './migrate.ts';
import type { StoredRow } from './rows.ts';
import type { Shelf } from './shelves.ts';
import { partPasses } from './tables.ts';

/** This device, made once, and how often it has written. */
export interface DeviceState {
  readonly key: 'device';
  readonly id: string;
  /** Transactions that changed documents. */
  readonly writes: number;
  /** Acts appended. */
  readonly acts: number;
}

/** A record as it was before a migration or a settled disagreement. */
export interface KeptCopy {
  readonly number?: number;
  readonly why: 'migrated' | 'settled';
  /** When a disagreement was settled. */
  readonly at?: string;
  readonly record: unknown;
}

/** A picture, addressed by the SHA-256 of its bytes. */
export interface StoredAttachment {
  readonly sha256: string;
  readonly bytes: Uint8Array;
}

/** A thing remembered about this device that is no part of the library. */
export interface Remembered {
  readonly key: string;
  readonly value: unknown;
}

export type Database = Dexie & {
  /** All but passes. */
  documents: Table<StoredRow, string>;
  passes: Table<StoredRow, string>;
  shelves: Table<Shelf, string>;
  acts: Table<{ readonly id: string; readonly roundId: string }, string>;
  attachments: Table<StoredAttachment, string>;
  copies: Table<KeptCopy, number>;
  device: Table<DeviceState, string>;
  remembered: Table<Remembered, string>;
  gone: Table<Gone, string>;
};

/** How long a waiting open is silent before the maker is told to close other windows. */
const PATIENCE_MS = 1500;

/** Brings every row of format 0, a bare document, to a row with sides. The bare documents are kept as copies. */
async function upgradeFrom0(transaction: Transaction): Promise<void> {
  const documents = transaction.table<Record<string, unknown>>('documents');
  const before = await documents.toArray();
  await transaction.table('copies').bulkAdd(before.map((record): KeptCopy => ({ why: 'migrated', record })));
  await documents.bulkPut(before.map((record) => ({ id: record['id'], sides: [migrateDocument(record)] })));
}

function declare(name: string): Database {
  const db = new Dexie(name, { autoOpen: false, chromeTransactionDurability: 'strict' }) as Database;
  const format0 = { documents: '&id', acts: '&id, roundId', device: '&key' };
  db.version(1).stores(format0);
  const format1 = { ...format0, attachments: '&sha256', copies: '++number', remembered: '&key' };
  db.version(2).stores(format1).upgrade(upgradeFrom0);
  db.version(3)
    .stores({ ...format1, gone: '&id', passes: '&id', shelves: '&id' })
    .upgrade((transaction) =>
      partPasses({
        documents: transaction.table('documents'),
        passes: transaction.table('passes'),
        shelves: transaction.table('shelves'),
      }),
    );
  return db;
}

/** True when a newer program has raised the database's version. Dexie opens such a database without complaint. */
function isNewer(db: Database): boolean {
  return db.backendDB().version > 10 * db.verno;
}

async function openPatiently(db: Database, onWaiting: () => void): Promise<void> {
  db.on('blocked', onWaiting);
  const timer = setTimeout(onWaiting, PATIENCE_MS);
  try {
    await db.open();
  } catch (error) {
    const explained = explainStorageError(error);
    throw explained instanceof StorageError ? explained : new StorageError('unknown', { cause: error });
  } finally {
    clearTimeout(timer);
  }
}

/** An open database. */
export interface Connection {
  readonly db: Database;
  /** False when a newer version of the program has raised the database's version. */
  readonly writable: boolean;
  /** True until `close`, or until another window needs the database for a newer version. */
  readonly isOpen: () => boolean;
  /** Runs work on the open database and puts the store's errors into words. @throws StorageError */
  readonly run: <T>(work: () => Promise<T>) => Promise<T>;
  /** From now on a database without this device's state is one that the browser has made anew: what was there is gone. */
  readonly expect: (deviceId: Id) => void;
  readonly close: () => void;
}

/**
 * Opens the database, upgrading it if need be.
 *
 * @param onWaiting Called when another window holds the upgrade up.
 * @param onClosed Called when another window brings the database to a newer version, or when the browser has cleared it
 *   away: it is closed by then.
 * @throws StorageError in words.
 */
export async function connect(
  name: string,
  onWaiting: () => void,
  onClosed: (trouble: 'closed' | 'gone') => void,
): Promise<Connection> {
  const db = declare(name);
  let closed: 'closed' | 'gone' | undefined;
  let expected: Id | undefined;
  const close = (trouble: 'closed' | 'gone' = 'closed') => {
    closed = trouble;
    db.close();
  };
  db.on('versionchange', ({ newVersion }) => {
    // Deleted, not raised: by hand, or with all that the browser keeps for this page.
    const trouble = newVersion === null ? 'gone' : 'closed';
    close(trouble);
    onClosed(trouble);
    return false;
  });
  await openPatiently(db, onWaiting);
  const writable = !isNewer(db);
  db.on('close', () => void takeUpAgain().catch(() => undefined));

  /** The system may drop the connection while the page sleeps: it is taken up again, unless a newer version came. */
  async function takeUpAgain() {
    if (closed) throw new StorageError(closed);
    await db.open();
    const isGone = expected !== undefined && (await db.device.get('device'))?.id !== expected;
    if (!isGone && !(writable && isNewer(db))) return;
    const trouble = isGone ? 'gone' : 'closed';
    close(trouble);
    onClosed(trouble);
    throw new StorageError(trouble);
  }

  return {
    db,
    writable,
    isOpen: () => closed === undefined,
    close: () => close(),
    expect: (deviceId) => void (expected = deviceId),
    async run(work) {
      if (closed) throw new StorageError(closed);
      try {
        if (!db.isOpen()) await takeUpAgain();
        return await work();
      } catch (error) {
        throw explainStorageError(error);
      }
    },
  };
}
