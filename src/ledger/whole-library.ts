import type { Id } from '../../shared/ids.ts';
import type { StoredAttachment } from './database.ts';
import type { Holdings } from './merge.ts';
import type { SetAside } from './rows.ts';

/** A whole library, pictures and unreadable records included. */
export interface WholeLibrary extends Holdings {
  readonly attachments: readonly StoredAttachment[];
  readonly setAside: readonly SetAside[];
}

/** What another library brings. A plain library file has no pictures and no unreadable records. */
export type Incoming = Holdings & Partial<Pick<WholeLibrary, 'attachments' | 'setAside'>>;

/** What has changed: documents, and rounds whose logs have grown. */
export interface Changed {
  readonly ids: readonly Id[];
  readonly rounds: readonly Id[];
}

export const NOTHING: WholeLibrary = { documents: [], acts: [], attachments: [], setAside: [] };

/**
 * Documents, acts and the like that are read or written at once where a library may be large: the database is not held
 * for longer, nor the page where it packs them. Our own number.
 */
export const PORTION = 100;
