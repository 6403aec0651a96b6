import type { Id } from '../../shared/ids.ts';
import type { Gone, LibraryDocument } from '../../shared/library.ts';
import { compareText } from './canonical.ts';
import type { Database } from './database.ts';
import { joinVersions, compareVersions } from './versions.ts';

/** What is remembered of a document that was removed for good, so that no copy, journal or file brings it back. */
export function goneOf(id: Id, sides: readonly LibraryDocument[], at: string): Gone {
  return { id, versions: joinVersions(sides.map(({ versions }) => versions)), at };
}

/** Whether a version of a document was there when it was removed for good. One changed elsewhere since was not. */
export function isGone({ versions }: LibraryDocument, gone: Gone | undefined): boolean {
  if (!gone) return false;
  const stands = compareVersions(gone.versions, versions);
  return stands === 'newer' || stands === 'same';
}

function joinGone(a: Gone, b: Gone): Gone {
  return { id: a.id, versions: joinVersions([a.versions, b.versions]), at: a.at > b.at ? a.at : b.at };
}

/** Each document once, with all that was seen of it. */
export function goneById(all: readonly Gone[]): Map<Id, Gone> {
  const byId = new Map<Id, Gone>();
  for (const one of all) {
    const known = byId.get(one.id);
    byId.set(one.id, known ? joinGone(known, one) : one);
  }
  return byId;
}

/** Each once, in one fixed order. */
export function goneInOrder(all: readonly Gone[]): Gone[] {
  return [...goneById(all).values()].sort((a, b) => compareText(a.id, b.id));
}

/** Inside a transaction: remembers them, joined with what is remembered already. */
export async function addGone(db: Database, all: readonly Gone[]): Promise<void> {
  const fresh = [...goneById(all).values()];
  const known = await db.gone.bulkGet(fresh.map(({ id }) => id));
  await db.gone.bulkPut(fresh.map((one, i) => (known[i] ? joinGone(known[i], one) : one)));
}
