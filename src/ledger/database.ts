import { Dexie, type Table, type Transaction } from 'dexie';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import { explainStorageError, StorageError } from './errors.ts';
import { migrateDocument } from './migrate.ts';
import type { StoredRow } from './rows.ts';

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
  documents: Table<StoredRow, string>;
  acts: Table<{ readonly id: string; readonly roundId: string }, string>;
  attachments: Table<StoredAttachment, string>;
  copies: Table<KeptCopy, number>;
  device: Table<DeviceState, string>;
  remembered: Table<Remembered, string>;
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

/** The database's version is one more than the format of the documents in it. */
function declare(name: string): Database {
  const db = new Dexie(name, { autoOpen: false, chromeTransactionDurability: 'strict' }) as Database;
  const format0 = { documents: '&id', acts: '&id, roundId', device: '&key' };
  db.version(1).stores(format0);
  db.version(FORMAT_VERSION + 1)
    .stores({ ...format0, attachments: '&sha256', copies: '++number', remembered: '&key' })
    .upgrade(upgradeFrom0);
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
  readonly close: () => void;
}

/**
 * Opens the database, upgrading it if need be.
 *
 * @param onWaiting Called when another window holds the upgrade up.
 * @param onOutdated Called when another window brings the database to a newer version: this one is closed by then.
 * @throws StorageError in words.
 */
export async function connect(
  name: string,
  onWaiting: () => void,
  onOutdated: () => void,
): Promise<Connection> {
  const db = declare(name);
  let open = true;
  const close = () => {
    open = false;
    db.close();
  };
  db.on('versionchange', () => {
    close();
    onOutdated();
    return false;
  });
  await openPatiently(db, onWaiting);
  const writable = !isNewer(db);

  /** The system may drop the connection while the page sleeps: it is taken up again, unless a newer version came. */
  async function takeUpAgain() {
    await db.open();
    if (!writable || !isNewer(db)) return;
    close();
    throw new StorageError('closed');
  }

  return {
    db,
    writable,
    isOpen: () => open,
    close,
    async run(work) {
      if (!open) throw new StorageError('closed');
      try {
        if (!db.isOpen()) await takeUpAgain();
        return await work();
      } catch (error) {
        throw explainStorageError(error);
      }
    },
  };
}
