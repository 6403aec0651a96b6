import type { Pass } from '../../shared/pass.ts';
import { FORMAT_VERSION } from '../../shared/stamp.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { LibraryStore } from '../store/library-store.ts';
import type { WhereTo } from './where-to.ts';

/**
 * The pass of a file as it would stand among those of its reed, before it is kept; undefined where there is none before it
 * to set it beside.
 *
 * @param id Stands for its identifier until it is kept.
 */
export function passToCome(
  [reed]: readonly ReedDraft[],
  to: WhereTo | undefined,
  store: LibraryStore,
  id: string,
): Pass | undefined {
  const known = store.reeds.find(({ label }) => label === to?.label);
  const pass = reed?.passes[0];
  if (!to || !known || !pass) return undefined;
  const there = store.passesOf(known.id);
  if (!there.some(({ index }) => index < to.index) || there.some(({ index }) => index === to.index))
    return undefined;
  const now = store.ledger.now();
  return {
    kind: 'pass',
    ...{ id, versions: { [id]: to.index + 1 }, formatVersion: FORMAT_VERSION },
    createdAt: now,
    updatedAt: now,
    reedId: known.id,
    remedies: [],
    ...pass,
    index: to.index,
    readings: [...pass.readings],
  };
}
