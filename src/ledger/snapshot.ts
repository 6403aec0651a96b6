import { documentSchema, type DocumentKind, type LibraryDocument } from '../../shared/library.ts';
import type { Id } from '../../shared/ids.ts';
import type { Pass, PassHead } from '../../shared/pass.ts';
import type { DocumentOf } from './drafts.ts';
import type { LazyShelf } from './lazy-shelf.ts';
import type { Row, SetAside } from './rows.ts';
import type { Siblings } from './sides.ts';

/** A document as the index has it: a pass without its readings. */
export type Listed = Exclude<LibraryDocument, Pass> | PassHead;
type ListedOf<K extends DocumentKind> = K extends 'pass' ? PassHead : DocumentOf<K>;

/**
 * Everything in the library at one moment, except readings and the acts of rounds. Never changed: the next one is a new
 * object.
 */
export interface Snapshot {
  /** Documents in use, by kind, oldest id first. Of a document in disagreement, the side that stands first. */
  readonly live: { readonly [K in DocumentKind]: readonly ListedOf<K>[] };
  /** Whether there is nothing, in use, in the bin or set aside. Passes are not unpacked for it. */
  readonly isEmpty: boolean;
  /** Passes in use of one reed, oldest id first. */
  readonly passesOf: (reedId: Id) => readonly PassHead[];
  /** Documents in the bin. */
  readonly deleted: readonly Listed[];
  /** Documents with more than one side, to be settled. */
  readonly disagreements: readonly Siblings[];
  /** Records that could not be read. */
  readonly setAside: readonly SetAside[];
}

const KINDS: readonly DocumentKind[] = documentSchema.options.map(({ shape }) => shape.kind.value);

const byId = (a: { readonly id: Id }, b: { readonly id: Id }) => (a.id < b.id ? -1 : 1);
const isLive = ({ deletedAt }: { readonly deletedAt?: string | undefined }) => deletedAt === undefined;

/**
 * @param rows All documents but passes.
 * @param oddPasses Passes with several sides or none that can be read.
 * @param shelves The passes of each reed.
 */
export function makeSnapshot(
  rows: Iterable<Row>,
  oddPasses: Iterable<Row>,
  shelves: Iterable<LazyShelf>,
): Snapshot {
  const byKind = new Map<DocumentKind, LibraryDocument[]>(KINDS.map((kind) => [kind, []]));
  const deleted: Listed[] = [];
  const others = [...rows].sort(byId);
  const odd = [...others, ...[...oddPasses].sort(byId)];
  for (const { shown } of others) {
    const [first] = shown;
    if (first === undefined || first.kind === 'pass') continue;
    if (isLive(first)) byKind.get(first.kind)?.push(first);
    else deleted.push(first);
  }
  const byReed = new Map([...shelves].map((shelf) => [shelf.id, shelf]));
  for (const shelf of byReed.values())
    if (shelf.hasDeleted) deleted.push(...shelf.heads().filter((head) => !isLive(head)));
  const passesOf = (reedId: Id) => byReed.get(reedId)?.heads().filter(isLive) ?? [];
  let passes: readonly PassHead[] | undefined;
  const live = Object.fromEntries(byKind) as unknown as Snapshot['live'];
  Object.defineProperty(live, 'pass', {
    enumerable: true,
    get: () => (passes ??= [...byReed.keys()].flatMap(passesOf).sort(byId)),
  });
  return {
    live,
    isEmpty: others.length + byReed.size === 0,
    passesOf,
    deleted,
    disagreements: odd.map(({ shown }) => shown).filter((sides) => sides.length > 1),
    setAside: odd.flatMap((row) => row.setAside),
  };
}
