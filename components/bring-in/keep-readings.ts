import type { Id } from '../../shared/ids.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Remedy } from '../../shared/remedy.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { draftsToKeep } from './drafts-to-keep.ts';
import type { ReadReadings } from './read-chosen.ts';
import { withAnswers } from './remembered-answers.ts';
import { putAt, type WhereTo } from './where-to.ts';

/** What the maker is told when all is kept. */
export interface Done {
  readonly what: 'done';
  readonly words: string;
  readonly reedId: string | undefined;
}

/** How the maker wanted readings kept when it was asked for. */
export interface Asked {
  readonly to: WhereTo | undefined;
  readonly remedies: readonly Remedy[];
  readonly styleId: string;
}

/** Keeps the readings in one change, then the answers given; undefined when nothing could be kept. */
export async function keepReadings(
  store: LibraryStore,
  read: ReadReadings,
  { to, remedies, styleId }: Asked,
): Promise<Done | undefined> {
  const { outcome, shapes, answers } = read;
  if (outcome.outcome !== 'understood') return undefined;
  const reeds = putAt(outcome.reeds, to);
  const labels = reeds.map(({ label }) => label);
  const known = store.reeds.filter(({ label }) => labels.includes(label));
  const passes = new Map<Id, readonly Pass[]>();
  for (const { id } of known) passes.set(id, await store.loadPasses(id));
  const held = {
    reeds: store.reeds,
    passesOf: (id: Id) => passes.get(id) ?? [],
    newId: store.ledger.newId,
  };
  const { drafts, clashes } = draftsToKeep(reeds, held, styleId, remedies);
  const names = labels.join(', ');
  if (drafts.length > 0 && !(await store.keep(drafts, `readings of ${names}`))) return undefined;
  if (answers.size > 0)
    await store.choose({ fileShapes: withAnswers(store.choices.fileShapes ?? [], shapes, answers) });
  void store.ledger.requestPersistence().catch(() => false);
  const clash =
    clashes.length > 0
      ? ` ${clashes.map(({ label, index }) => `Pass ${index} of ${label}`).join(', ')} was there already with other readings, and stays as it was.`
      : '';
  const kept = drafts.length > 0 ? `Kept: ${names}.` : `Everything of ${names} was there already.`;
  const first = store.reeds.find(({ label }) => label === reeds[0]?.label);
  return { what: 'done', words: `${kept}${clash}`, reedId: first?.id };
}
