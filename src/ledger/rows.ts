import { documentSchema, type LibraryDocument } from '../../shared/library.ts';
import { actSchema, type Act } from '../../shared/round.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';

/** One stored document with all its sides, as the database holds it. Nothing in it is trusted. */
export interface StoredRow {
  readonly id: string;
  readonly sides: readonly unknown[];
}

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

export function readRow(stored: StoredRow): Row {
  const id = String(stored.id);
  const sides: LibraryDocument[] = [];
  const setAside: SetAside[] = [];
  for (const record of Array.isArray(stored.sides) ? stored.sides : [stored]) {
    const { success, data, error } = documentSchema.safeParse(record);
    if (success && data.id === id) sides.push(data);
    else setAside.push({ of: 'documents', id, reason: reasonFor(record, error?.issues ?? []), record });
  }
  return { id, sides, setAside };
}

/** What is written back: the given sides, and unreadable records untouched. */
export function toStored(id: string, sides: readonly LibraryDocument[], before?: Row): StoredRow {
  return { id, sides: [...sides, ...(before?.setAside ?? []).map(({ record }) => record)] };
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
