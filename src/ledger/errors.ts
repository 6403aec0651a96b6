import { FormatError } from '../../shared/errors.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import type { PassHead } from '../../shared/pass.ts';

/** A change was made to a document that has changed since it was read: nothing was written. */
export class ConflictError extends Error {
  override readonly name = 'ConflictError';
  /** Each document at fault: what was to be written, and what stands there now (absent when it is gone). */
  readonly conflicts: readonly Conflict[];

  constructor(conflicts: readonly Conflict[]) {
    super(
      'This was changed in another window meanwhile. Nothing was overwritten: look at it and decide again.',
    );
    this.conflicts = conflicts;
  }
}

export interface Conflict {
  readonly mine: LibraryDocument | PassHead;
  readonly theirs?: LibraryDocument;
}

/** What was made by a newer version of the bench is sound, and not for this one to judge. */
export class NewerFormatError extends FormatError {}

export type StorageTrouble = 'full' | 'newer' | 'closed' | 'gone' | 'blocked' | 'refused' | 'unknown';

const WORDS: Readonly<Record<StorageTrouble, string>> = {
  full: 'The disk space for this page is used up, so the last change could not be kept. Everything kept before is safe. Save a backup file, free some space, and do it again.',
  newer:
    'This library was opened by a newer version of the bench. It can be read and exported here, but not changed: reload the page to get the newer version.',
  closed:
    'The library was closed, because another window brought it to a newer version. Reload this page to go on.',
  gone: 'The browser has cleared away everything that this page had kept, while the page was open. What this window still holds can be saved as a file: do that first, then reload the page and bring the file in.',
  blocked: 'Another window of the bench holds the library open. Close the other windows and try again.',
  refused:
    'The browser does not let this page keep anything (a private window, or storage switched off). Nothing entered here would last.',
  unknown:
    'The browser could not keep the last change. Everything kept before is safe. Do it again; if it fails again, save a backup file and reload.',
};

/** The browser's storage did not do what was asked. The message says what is safe and what to do. */
export class StorageError extends Error {
  override readonly name = 'StorageError';
  readonly trouble: StorageTrouble;

  constructor(trouble: StorageTrouble, options?: ErrorOptions) {
    super(WORDS[trouble], options);
    this.trouble = trouble;
  }
}

const TROUBLE_BY_NAME: Readonly<Record<string, StorageTrouble>> = {
  QuotaExceededError: 'full',
  DatabaseClosedError: 'closed',
  OpenFailedError: 'refused',
  MissingAPIError: 'refused',
  SecurityError: 'refused',
  InvalidStateError: 'unknown',
  UnknownError: 'unknown',
  AbortError: 'unknown',
  TimeoutError: 'unknown',
};

/** The chain of errors behind one: the store reports a full disk as an aborted transaction with the cause inside. */
function* chain(error: unknown): Generator<Error> {
  for (let at: unknown = error, depth = 0; at instanceof Error && depth < 10; depth++) {
    yield at;
    at = 'inner' in at && at.inner ? at.inner : at.cause;
  }
}

/** Puts a store's own error into words; anything else is returned as it is. */
export function explainStorageError(error: unknown): unknown {
  const troubles = [...chain(error)].map(({ name }) => TROUBLE_BY_NAME[name]);
  const trouble = troubles.includes('full') ? 'full' : troubles.find((one) => one !== undefined);
  if (trouble === undefined || error instanceof StorageError) return error;
  return new StorageError(trouble, { cause: error });
}
