import type { Pass } from '../../shared/pass.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import type { Incoming } from '../ledger/whole-library.ts';
import { foldRound } from '../round/fold-round.ts';

/**
 * Where notes are left out, a round that was finished on another device became a pass without those that were written
 * here: they are put on it here.
 */
export async function keepRoundNotes(ledger: Ledger, { documents }: Incoming): Promise<void> {
  const ids = new Set(documents.flatMap(({ kind, id }) => (kind === 'round' || kind === 'pass' ? [id] : [])));
  if (ids.size === 0) return;
  const { live } = await ledger.read();
  for (const round of live.round) {
    const { id, closedAs } = round;
    if (closedAs === undefined || (!ids.has(id) && !ids.has(closedAs))) continue;
    const pass = await ledger.get(closedAs);
    // Whoever has written the note of a pass by itself knows what it says.
    if (pass?.kind !== 'pass' || pass.edits?.fields['note']) continue;
    const { notes } = foldRound(round, await ledger.actsOf(id));
    const lost = notes.filter((text) => !pass.note?.includes(text));
    if (lost.length === 0) continue;
    const note = [pass.note ?? [], ...lost].flat().join('\n');
    await ledger.keep([{ ...pass, note } satisfies Pass], 'note');
  }
}
