import type { LibraryDocument } from '../../shared/library.ts';
import type { Edits, Versions } from '../../shared/stamp.ts';
import { canonicalJson, compareText } from './canonical.ts';
import type { Siblings } from './sides.ts';
import { joinVersions, compareVersions } from './versions.ts';

/** What the ledger writes by itself. Whether a document is in the bin is a field like any other. */
export const STAMP: readonly string[] = [
  'id',
  'kind',
  'formatVersion',
  'versions',
  'createdAt',
  'updatedAt',
  'edits',
];
const BIN = 'deletedAt';

const fieldsOf = (document: LibraryDocument) => Object.keys(document).filter((key) => !STAMP.includes(key));
const valueIn = (document: LibraryDocument, field: string): unknown =>
  (document as unknown as Record<string, unknown>)[field];

/** Two moments at which it went into the bin are one thing to the maker. */
const textOf = (field: string, value: unknown) =>
  field === BIN ? String(value !== undefined) : canonicalJson({ value });

/** The writes to which a field's value is owed. */
export const writesOf = ({ versions, edits }: LibraryDocument, field: string): Versions =>
  edits ? (edits.fields[field] ?? edits.base) : versions;

/**
 * Which write each field is owed to, after one write. A write to any field also says that the document is wanted: put
 * into the bin elsewhere meanwhile, it is asked about.
 */
export function editsAfter(before: LibraryDocument, after: LibraryDocument, write: Versions): Edits {
  const { base, fields } = before.edits ?? { base: before.versions, fields: {} };
  const changed = new Set([...fieldsOf(before), ...fieldsOf(after)]);
  const differing = [...changed].filter(
    (field) => canonicalJson({ v: valueIn(before, field) }) !== canonicalJson({ v: valueIn(after, field) }),
  );
  if (differing.length === 0) return { base, fields };
  return {
    base,
    fields: { ...fields, ...Object.fromEntries([...differing, BIN].map((field) => [field, write])) },
  };
}

const covers = (seen: Versions, writes: Versions) =>
  ['newer', 'same'].includes(compareVersions(seen, writes));

/** Versions whose value of a field no other version has seen and replaced. */
function standingValues(sides: Siblings, field: string): Siblings {
  return sides.filter((one) => {
    const writes = writesOf(one, field);
    return !sides.some((other) => covers(other.versions, writes) && !covers(writes, writesOf(other, field)));
  });
}

const isFirst = (a: LibraryDocument, b: LibraryDocument) => compareText(canonicalJson(a), canonicalJson(b));

/**
 * What several versions of one document, none of which has seen the others, come to: one document, where no field was
 * set to different values; otherwise the versions as they are, to be asked about. It only looks: the versions stay
 * until the next write, which has seen them all, so that uniting libraries stays a union.
 */
export function fieldsMerged(sides: Siblings): Siblings {
  const [first] = sides;
  if (first === undefined || sides.length < 2) return sides;
  const inOrder = [...sides].sort(isFirst);
  const merged: Record<string, unknown> = {};
  const writes = new Map<string, Versions>();
  for (const field of [...new Set(inOrder.flatMap(fieldsOf)), BIN].sort()) {
    const stand = standingValues(inOrder, field);
    if (new Set(stand.map((one) => textOf(field, valueIn(one, field)))).size !== 1) return sides;
    const value = stand.map((one) => valueIn(one, field)).find((one) => one !== undefined);
    if (value !== undefined) merged[field] = value;
    writes.set(field, joinVersions(stand.map((one) => writesOf(one, field))));
  }
  const times = (key: 'createdAt' | 'updatedAt') =>
    inOrder.map((one) => one[key]).sort((a, b) => Date.parse(a) - Date.parse(b));
  const stamp = {
    id: first.id,
    kind: first.kind,
    formatVersion: first.formatVersion,
    versions: joinVersions(inOrder.map(({ versions }) => versions)),
    createdAt: times('createdAt')[0],
    updatedAt: times('updatedAt').at(-1),
    edits: { base: {}, fields: Object.fromEntries(writes) },
  };
  return [{ ...merged, ...stamp } as unknown as LibraryDocument];
}
