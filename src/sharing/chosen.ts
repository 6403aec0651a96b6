import type { Id } from '../../shared/ids.ts';
import type { DocumentKind, LibraryDocument } from '../../shared/library.ts';
import type { Holdings } from '../ledger/merge.ts';
import { withoutNotes } from '../ledger/notes.ts';
import type { Snapshot } from '../ledger/snapshot.ts';
import type { Changed } from '../ledger/whole-library.ts';

/** What a device is in a shared case. */
export type Role =
  /** One of a maker's own: everything goes both ways. */
  | 'own'
  /** One of a class or a workshop: reeds and what they are read with, not the maker's own choices. */
  | 'class'
  /** Reads what others send, and sends nothing. */
  | 'guest';

export interface Chosen {
  readonly role: Role;
  /** Reeds with one of these tags; every reed where there is none. */
  readonly tags: readonly string[];
  readonly photos: boolean;
  /** Whether what the maker has written in words goes, too. */
  readonly notes: boolean;
}

/** What is about its maker, not about reeds. */
const PRIVATE: readonly DocumentKind[] = ['settings', 'habit', 'engagement'];
export const isPrivate = (kind: DocumentKind): boolean => PRIVATE.includes(kind);

const reedIn = (document: { readonly kind: DocumentKind; readonly id: Id }): Id | undefined => {
  if (document.kind === 'reed') return document.id;
  return 'reedId' in document ? (document.reedId as Id | undefined) : undefined;
};

/** Reeds that are shared, whether in use or in the bin; undefined where all are. */
export function sharedReeds({ live, deleted }: Snapshot, { tags }: Chosen): ReadonlySet<Id> | undefined {
  if (tags.length === 0) return undefined;
  const reeds = [...live.reed, ...deleted].filter((one) => one.kind === 'reed');
  return new Set(reeds.filter((reed) => reed.tags.some((tag) => tags.includes(tag))).map(({ id }) => id));
}

/** What of a part of the library goes up. */
export function chosenOf(
  { documents, acts, notChosen = [] }: Holdings,
  snapshot: Snapshot,
  chosen: Chosen,
): Holdings {
  if (chosen.role === 'guest') return { documents: [], acts: [] };
  const reeds = sharedReeds(snapshot, chosen);
  const rounds = new Map(snapshot.live.round.map((round) => [round.id, round.reedId]));
  const passes = reeds && new Set([...reeds].flatMap((id) => snapshot.passesOf(id).map((pass) => pass.id)));
  const isOfShared = (id: Id | undefined) =>
    reeds === undefined || id === undefined || reeds.has(id) || passes?.has(id) === true;
  const goes = (document: LibraryDocument) => {
    if (chosen.role !== 'own' && isPrivate(document.kind)) return false;
    if (!chosen.notes && document.kind === 'habit') return false;
    if (document.kind === 'photo') return chosen.photos && (reeds === undefined || isOfShared(document.of));
    return isOfShared(reedIn(document));
  };
  const going = {
    documents: documents.filter(goes),
    acts: acts.filter(({ roundId }) => reeds === undefined || reeds.has(rounds.get(roundId) ?? '')),
    notChosen: notChosen.filter(({ side }) => goes(side)),
  };
  return chosen.notes ? going : leftOut(going);
}

/** The same without a word of its maker's. */
const leftOut = ({ documents, acts, notChosen = [] }: Holdings): Holdings => ({
  documents: documents.map(withoutNotes),
  acts: acts.filter(({ act }) => act !== 'noted'),
  notChosen: notChosen.map(({ at, side }) => ({ at, side: withoutNotes(side) })),
});

/** What changed, and what goes up with it: a reed that was given a tag brings all that belongs to it. */
export function withBelongings(changed: Changed, snapshot: Snapshot, { tags }: Chosen): Changed {
  if (tags.length === 0) return changed;
  const ids = new Set(changed.ids);
  const reeds = snapshot.live.reed.filter(({ id }) => ids.has(id)).map(({ id }) => id);
  const isOf = (one: { readonly kind: DocumentKind; readonly id: Id }) => reeds.includes(reedIn(one) ?? '');
  const others = (Object.keys(snapshot.live) as DocumentKind[]).filter((kind) => kind !== 'pass');
  const belongings = others.flatMap((kind) => snapshot.live[kind].filter(isOf));
  const rounds = snapshot.live.round.filter(isOf).map(({ id }) => id);
  return {
    ids: [
      ...ids,
      ...belongings.map(({ id }) => id),
      ...reeds.flatMap((id) => snapshot.passesOf(id).map((one) => one.id)),
    ],
    rounds: [...changed.rounds, ...rounds],
  };
}
