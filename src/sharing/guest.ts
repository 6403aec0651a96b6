import type { Id } from '../../shared/ids.ts';
import type { Draft } from '../ledger/drafts.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import { isPrivate } from './chosen.ts';

/** A guest was about to change what is the shared case's. */
export class GuestError extends Error {
  override readonly name = 'GuestError';

  constructor() {
    super(
      'This is of the shared case, which this device reads as a guest: it stays as it is there. Nothing was changed. Whoever shares it can change it; reeds of your own are yours to change.',
    );
  }
}

type Remembering = Pick<Ledger, 'recall' | 'remember'>;
const READ = 'read as a guest';

/** Documents that this device has read of a shared case as its guest. */
export async function readAsGuest(ledger: Remembering): Promise<ReadonlySet<Id>> {
  return new Set((await ledger.recall(READ)) as readonly Id[] | undefined);
}

/** Remembers them, before they are taken in. */
export async function noteRead(ledger: Remembering, ids: readonly Id[]): Promise<void> {
  const all = await readAsGuest(ledger);
  if (ids.some((id) => !all.has(id))) await ledger.remember(READ, [...new Set([...all, ...ids])]);
}

export const forgetRead = (ledger: Remembering): Promise<void> => ledger.remember(READ, undefined);

/** Documents that a change touches: those that it writes, and the reeds and passes that they are of. */
export const touchedBy = (drafts: readonly Draft[]): Id[] =>
  drafts.flatMap((draft) => {
    const of = isPrivate(draft.kind) ? [] : ['reedId' in draft && draft.reedId, 'of' in draft && draft.of];
    return [draft.id, ...of].filter((id): id is Id => typeof id === 'string');
  });
