import type { Id } from '../../shared/ids.ts';
import type { StorageTrouble } from './errors.ts';

interface Where {
  readonly here: boolean;
  /** It came from the shared case: whoever sends changes there has no need to, and nobody here has seen it. */
  readonly isShared?: boolean;
}

/** Documents that changed. */
export interface DocumentsChange extends Where {
  readonly what: 'documents';
  readonly ids: readonly Id[] | 'all';
  /** Reeds on whose shelves passes have changed; absent where that is not known. */
  readonly shelves?: readonly Id[];
}

/** Something that changed in the library, here or in another window. */
export type LedgerChange =
  | DocumentsChange
  | ({ readonly what: 'acts'; readonly roundId: Id } & Where)
  /** The library can no longer be written from this window. */
  | { readonly what: 'closed'; readonly trouble: StorageTrouble };

export type ChangeListener = (change: LedgerChange) => void;

export interface Notices {
  /** Tells listeners here and in the other windows. */
  readonly tell: (change: LedgerChange) => void;
  /** Tells listeners here only. */
  readonly tellHere: (change: LedgerChange) => void;
  readonly listen: (listener: ChangeListener) => () => void;
  readonly close: () => void;
}

export function openNotices(name: string): Notices {
  const channel = new BroadcastChannel(`${name} changes`);
  const listeners = new Set<ChangeListener>();
  const tellHere = (change: LedgerChange) => {
    for (const listener of [...listeners]) listener(change);
  };
  channel.onmessage = ({ data }: MessageEvent<LedgerChange>) => {
    tellHere(data.what === 'closed' ? data : { ...data, here: false });
  };
  return {
    tellHere,
    tell(change) {
      channel.postMessage(change);
      tellHere(change);
    },
    listen(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close() {
      listeners.clear();
      channel.close();
    },
  };
}
