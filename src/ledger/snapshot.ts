import { documentSchema, type DocumentKind, type LibraryDocument } from '../../shared/library.ts';
import type { DocumentOf } from './drafts.ts';
import type { Row, SetAside } from './rows.ts';
import type { Sides } from './sides.ts';

/** Everything in the library at one moment, except the acts of rounds. Never changed: the next one is a new object. */
export interface Snapshot {
  /** Documents in use, by kind, oldest id first. Of a document in disagreement, the side that stands first. */
  readonly live: { readonly [K in DocumentKind]: readonly DocumentOf<K>[] };
  /** Documents in the bin. */
  readonly deleted: readonly LibraryDocument[];
  /** Documents with more than one side, to be settled. */
  readonly disagreements: readonly Sides[];
  /** Records that could not be read. */
  readonly setAside: readonly SetAside[];
}

const KINDS: readonly DocumentKind[] = documentSchema.options.map(({ shape }) => shape.kind.value);

export function makeSnapshot(rows: Iterable<Row>): Snapshot {
  const byKind = new Map<DocumentKind, LibraryDocument[]>(KINDS.map((kind) => [kind, []]));
  const deleted: LibraryDocument[] = [];
  const disagreements: Sides[] = [];
  const setAside: SetAside[] = [];
  const ordered = [...rows].sort((a, b) => (a.id < b.id ? -1 : 1));
  for (const row of ordered) {
    const [first] = row.sides;
    setAside.push(...row.setAside);
    if (row.sides.length > 1) disagreements.push(row.sides);
    if (first === undefined) continue;
    (first.deletedAt === undefined ? (byKind.get(first.kind) ?? []) : deleted).push(first);
  }
  return {
    live: Object.fromEntries(byKind) as unknown as Snapshot['live'],
    deleted,
    disagreements,
    setAside,
  };
}
