import type { Id } from '../../shared/ids.ts';
import type { LibraryDocument } from '../../shared/library.ts';
import { passHead, type Pass, type PassHead } from '../../shared/pass.ts';
import type { Row } from './rows.ts';

/** The passes of a reed, all but their readings, as the library's index has them. */
export interface Shelf {
  /** The reed's. */
  readonly id: Id;
  /** JSON of `ShelvedRow[]`. It is read when the reed is looked at. */
  readonly heads: string;
  /** Passes that have not just one sound side: they are looked at whole. */
  readonly odd: readonly Id[];
  /** Whether any is in the bin. */
  readonly hasDeleted: boolean;
}

/** A pass on its shelf: its sides, best first. */
export interface ShelvedRow {
  readonly id: Id;
  readonly sides: readonly PassHead[];
  readonly isOdd?: true;
}

/** @returns Undefined where the shelf cannot be read: its passes tell what stands on it. */
export function shelvedOf({ heads }: Shelf): readonly ShelvedRow[] | undefined {
  try {
    const rows: unknown = JSON.parse(heads);
    return Array.isArray(rows) ? (rows as readonly ShelvedRow[]) : undefined;
  } catch {
    return undefined;
  }
}

const isPass = (document: LibraryDocument): document is Pass => document.kind === 'pass';

export function shelvedRow({ id, shown, setAside }: Row): ShelvedRow {
  const heads = shown.filter(isPass).map(passHead);
  return { id, sides: heads, ...((heads.length !== 1 || setAside.length > 0) && { isOdd: true as const }) };
}

export function headsText(id: Id, staying: readonly ShelvedRow[], coming: readonly Row[]): Shelf {
  const rows = [...staying, ...coming.map(shelvedRow)].sort((a, b) => (a.id < b.id ? -1 : 1));
  return {
    id,
    heads: JSON.stringify(rows),
    odd: rows.filter(({ isOdd }) => isOdd).map((row) => row.id),
    hasDeleted: rows.some(({ sides }) => sides[0]?.deletedAt !== undefined),
  };
}
