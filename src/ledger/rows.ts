import { documentSchema, type LibraryDocument } from '../../shared/library.ts';
import { actSchema, type Act } from '../../shared/round.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import { fieldsMerged } from './field-merge.ts';
import { packDocument, unpackRecord } from './packed-document.ts';

/** One stored document with all its sides, as the database holds it. Nothing in it is trusted. */
export interface StoredRow {
  readonly id: string;
  /** Passes with their readings packed. */
  readonly sides: readonly unknown[];
  /** The check that all sides have passed; absent when one of them has not. */
  readonly checked?: number;
}

/** Raised when a schema changes so that what was sound may no longer be, or the other way round. */
export const CHECK = 1;

/** A stored record that this program cannot read. It stays in the database as it is. */
export interface SetAside {
  readonly of: 'documents' | 'acts' | 'notChosen';
  readonly id: string;
  /** One sentence. */
  readonly reason: string;
  readonly record: unknown;
}

/** A row after reading: its sound sides, best first, and what could not be read. */
export interface Row {
  readonly id: string;
  readonly sides: readonly LibraryDocument[];
  /** What the maker sees of them: one, where no field was set to different values. */
  readonly shown: readonly LibraryDocument[];
  readonly setAside: readonly SetAside[];
}

interface Issue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/** Why a record cannot be read, in one sentence. */
export function reasonFor(record: unknown, issues: readonly Issue[]): string {
  const format = typeof record === 'object' && record !== null && 'formatVersion' in record && record;
  if (format && typeof format.formatVersion === 'number' && format.formatVersion > FORMAT_VERSION) {
    return 'It was made by a newer version of the bench.';
  }
  const [first] = issues;
  return first
    ? `${first.path.map(String).join('.') || 'record'}: ${first.message}`
    : 'It is not a document.';
}

const rowOf = (id: string, sides: readonly LibraryDocument[], setAside: readonly SetAside[]): Row => ({
  id,
  sides,
  shown: fieldsMerged(sides),
  setAside,
});

/** @param isTrusted What was checked by this program when it was written is not checked again. */
export function readRow(stored: StoredRow, isTrusted = true): Row {
  const id = String(stored.id);
  const records = (Array.isArray(stored.sides) ? stored.sides : [stored]).map(unpackRecord);
  if (isTrusted && stored.checked === CHECK) return rowOf(id, records as LibraryDocument[], []);
  const sides: LibraryDocument[] = [];
  const setAside: SetAside[] = [];
  for (const record of records) {
    const { success, data, error } = documentSchema.safeParse(record);
    if (success && data.id === id) sides.push(data);
    else setAside.push({ of: 'documents', id, reason: reasonFor(record, error?.issues ?? []), record });
  }
  return rowOf(id, sides, setAside);
}

/** What is written back: the given sides, and unreadable records untouched. */
export function toStored(id: string, sides: readonly LibraryDocument[], before?: Row): StoredRow {
  const aside = (before?.setAside ?? []).map(({ record }) => record);
  return {
    id,
    sides: [...sides.map(packDocument), ...aside],
    ...(aside.length === 0 && { checked: CHECK }),
  };
}

export function readActs(records: readonly unknown[]): { acts: Act[]; setAside: SetAside[] } {
  const acts: Act[] = [];
  const setAside: SetAside[] = [];
  for (const record of records) {
    const { success, data, error } = actSchema.safeParse(record);
    if (success) acts.push(data);
    else {
      const id = typeof record === 'object' && record !== null && 'id' in record ? String(record.id) : '';
      setAside.push({ of: 'acts', id, reason: reasonFor(record, error.issues), record });
    }
  }
  return { acts, setAside };
}
