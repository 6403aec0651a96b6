import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import type { PassFacts } from '../../shared/pass.ts';

type Owned = LibraryDocument | PassFacts;

function ownerOf(document: Owned): Id | undefined {
  switch (document.kind) {
    case 'pass':
    case 'round':
    case 'trial':
    case 'use':
    case 'scrape-plan':
      return document.reedId;
    case 'photo':
      return document.of;
    default:
      return undefined;
  }
}

/** A reed and everything that is nothing without it: passes, rounds, trials, playings, plans, photographs. */
export const withBelongings = (documents: readonly Owned[], reedId: Id): readonly Id[] =>
  documents.filter((one) => one.id === reedId || ownerOf(one) === reedId).map(({ id }) => id);
