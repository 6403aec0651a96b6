import type { Id } from '../../shared/ids.ts';
import type { PassHead } from '../../shared/pass.ts';
import { shelvedOf, type Shelf } from './shelves.ts';

/** A reed's passes without their readings, unpacked when they are first asked for. */
export interface LazyShelf extends Pick<Shelf, 'id' | 'odd' | 'hasDeleted'> {
  /** The side of each pass that stands first. */
  readonly heads: () => readonly PassHead[];
}

/** @param onUnreadable Told once, when a shelf turns out to be unreadable. */
export function makeLazyShelf(shelf: Shelf, onUnreadable: (reedId: Id) => void): LazyShelf {
  let heads: readonly PassHead[] | undefined;
  function unpacked() {
    const rows = shelvedOf(shelf);
    if (rows === undefined) onUnreadable(shelf.id);
    return rows ?? [];
  }
  return {
    id: shelf.id,
    odd: shelf.odd,
    hasDeleted: shelf.hasDeleted,
    heads: () => (heads ??= unpacked().flatMap(({ sides: [first] }) => first ?? [])),
  };
}
