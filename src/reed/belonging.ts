import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';

function ownerOf(document: LibraryDocument): Id | undefined {
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
export const withBelongings = (documents: readonly LibraryDocument[], reedId: Id): readonly Id[] =>
  documents.filter((one) => one.id === reedId || ownerOf(one) === reedId).map(({ id }) => id);
