import type { PassHead } from '../../shared/pass.ts';
import { shelvedOf, type Shelf, type ShelvedRow } from './shelves.ts';

/** A reed's passes without their readings, unpacked when they are first asked for. */
export interface LazyShelf extends Pick<Shelf, 'id' | 'odd' | 'hasDeleted'> {
  /** The side of each pass that stands first. */
  readonly heads: () => readonly PassHead[];
}

export function makeLazyShelf(shelf: Shelf): LazyShelf {
  let rows: readonly ShelvedRow[] | undefined;
  let heads: readonly PassHead[] | undefined;
  const unpacked = () => (rows ??= shelvedOf(shelf));
  return {
    id: shelf.id,
    odd: shelf.odd,
    hasDeleted: shelf.hasDeleted,
    heads: () => (heads ??= unpacked().flatMap(({ sides: [first] }) => first ?? [])),
  };
}
