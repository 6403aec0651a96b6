import type { Reed } from '../../shared/reed.ts';
import type { Recipe, TargetDocument } from '../../shared/target.ts';
import { originalCane, type OriginalCane } from '../../src/cane/original-cane.ts';
import { examplesOf } from '../../src/plan/examples-of.ts';
import type { Followed } from '../../src/plan/make-target.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** What a reed is brought to, before its examples are fitted. */
export interface Follow {
  readonly name?: string;
  readonly recipe: Recipe;
  readonly placing: TargetDocument['placing'];
}

/** Favourites of the same style that are not this reed, the newest first. */
export function favouritesOf(store: LibraryStore, reed: Reed): readonly Reed[] {
  return store.reeds
    .filter(({ id, favourite, styleId }) => favourite && id !== reed.id && styleId === reed.styleId)
    .sort((a, b) => b.favourite!.since.localeCompare(a.favourite!.since));
}

/** The target that the maker chose for a reed, or the newest favourite of its style. */
export function followOf(store: LibraryStore, reed: Reed): Follow | undefined {
  const chosen = store.snapshot.live.target.find(({ id }) => id === reed.targetId);
  if (chosen) {
    const { name, recipe, placing } = chosen;
    const isOneReed = recipe.from === 'reeds' && recipe.examples.length === 1;
    return { ...(!isOneReed && { name }), recipe, placing };
  }
  const [newest] = favouritesOf(store, reed);
  return (
    newest && {
      recipe: {
        from: 'reeds',
        examples: [{ reedId: newest.id, passIndex: newest.favourite!.passIndex }],
      },
      placing: 'tip',
    }
  );
}

/** Fits the reeds that a target is made of. */
export async function resolveFollow(
  store: LibraryStore,
  follow: Follow | undefined,
): Promise<Followed | undefined> {
  if (!follow) return undefined;
  const examples = examplesOf(follow.recipe).flatMap(({ reedId }) => store.reed(reedId) ?? []);
  const reeds = await Promise.all(
    examples.map((reed) => store.models.settled(reed, store.passesOf(reed.id))),
  );
  return { ...follow, reeds };
}

/** The piece of cane that a reed was made of. */
export const pieceOf = (store: LibraryStore, reed: Pick<Reed, 'pieceId'>) =>
  store.snapshot.live.piece.find(({ id }) => id === reed.pieceId);

/** A reed's cane as it was gouged, from the readings of its piece. */
export function caneOfReed(store: LibraryStore, reed: Pick<Reed, 'pieceId'>): OriginalCane | undefined {
  const piece = pieceOf(store, reed);
  return piece && originalCane(piece);
}
