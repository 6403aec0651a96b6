import type { LibraryDocument } from '../../shared/library.ts';
import { canonicalJson } from './canonical.ts';
import { STAMP, writesOf } from './field-merge.ts';
import type { Siblings } from './sides.ts';
import { compareVersions } from './versions.ts';

/** What a maker writes in words of their own; a name is none. `extra` are columns that the bench does not know. */
const NOTES: readonly string[] = ['note', 'words', 'lesson', 'reason', 'extra'];
/** Notes of music, and what the ledger itself writes of each field. */
const NO_NOTES: readonly string[] = [...STAMP, 'peep', 'pitchCents'];

const valueWithout = (field: string, value: unknown): unknown =>
  NOTES.includes(field) ? undefined : NO_NOTES.includes(field) ? value : bare(value);

/** A value without notes: itself, where it has none. */
function bare(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const before = Object.entries(value);
  if (Array.isArray(value)) {
    const items = value.map(bare);
    return items.every((item, i) => item === value[i]) ? value : items;
  }
  const after = before.map(([field, inner]) => [field, valueWithout(field, inner)] as const);
  if (after.every(([, inner], i) => inner === before[i]?.[1])) return value;
  return Object.fromEntries(after.filter(([, inner]) => inner !== undefined));
}

/** A document without its notes; itself, where it has none. */
export const withoutNotes = (document: LibraryDocument) => bare(document) as LibraryDocument;

const sameText = (a: unknown, b: unknown) => canonicalJson({ value: a }) === canonicalJson({ value: b });

/** Fields of one version with notes in them, and what they are without. */
const noted = (document: LibraryDocument) =>
  Object.entries(document)
    .map(([field, value]) => ({ field, value: value as unknown, less: valueWithout(field, value) }))
    .filter(({ value, less }) => value !== less);

const valueIn = (document: LibraryDocument, field: string) =>
  (document as unknown as Record<string, unknown>)[field];

/** One version, with the notes that another has of the same writes and it has not. */
function filled(one: LibraryDocument, other: LibraryDocument): LibraryDocument {
  const lost = noted(other).filter(
    ({ field, less }) =>
      sameText(valueIn(one, field), less) &&
      compareVersions(writesOf(one, field), writesOf(other, field)) === 'same',
  );
  if (lost.length === 0) return one;
  return { ...one, ...Object.fromEntries(lost.map(({ field, value }) => [field, value])) };
}

/**
 * Versions of one document, each with every note that any of them has: a note that was left out on the way is no write,
 * and its absence replaces nothing.
 */
export const withAllNotes = (versions: Siblings): Siblings =>
  versions.length < 2 ? versions : versions.map((one) => versions.reduce(filled, one));

/** Whether a version that comes would take a note away, or put another in its place. */
export function lacksNotes(here: LibraryDocument, comes: LibraryDocument): boolean {
  const whole = filled(comes, here);
  return noted(here).some(({ field, value }) => !sameText(valueIn(whole, field), value));
}
