import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';
import type { FittedReed, ReedAtPass } from '../../src/answers/fitted-reed.ts';
import { examplesOf } from '../../src/plan/examples-of.ts';
import type { Followed } from '../../src/plan/make-target.ts';
import type { OriginalCane } from '../../src/cane/original-cane.ts';
import { favouritesOf, followOf, caneOfReed, pieceOf, resolveFollow } from '../plan/follow.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** A reed on the desk, fitted, with what it is set beside. */
export interface DeskFit {
  readonly benched: FittedReed;
  /** Favourites of its style, the newest first. */
  readonly favourites: readonly ReedAtPass[];
  /** The cane that the blades were made of, where its gouge is known. */
  readonly original: OriginalCane | undefined;
  /** What it is brought to. */
  readonly followed?: Followed;
  /** The cane of reeds as it was gouged, where pieces were read. */
  readonly canes: ReadonlyMap<Id, OriginalCane>;
}

/** What tells one state of everything that a fit depends on from another. */
export function fitKey(store: LibraryStore, reed: Reed): string {
  const follow = followOf(store, reed);
  const ids = follow ? examplesOf(follow.recipe).map(({ reedId }) => reedId) : [];
  const reeds = [reed, ...favouritesOf(store, reed), ...ids.map((id) => store.reed(id))];
  const fits = reeds.map((one) => one && store.models.keyOf(one, store.passesOf(one.id)));
  const piece = pieceOf(store, reed);
  return JSON.stringify([follow, fits, piece?.id, piece?.versions]);
}

function canesOf(store: LibraryStore, reeds: readonly Reed[]): ReadonlyMap<Id, OriginalCane> {
  return new Map(
    reeds.flatMap((one) => {
      const cane = caneOfReed(store, one);
      return cane ? [[one.id, cane] as const] : [];
    }),
  );
}

/**
 * Fits a reed, the favourites of its style, and the reeds that its target is made of.
 *
 * @param alone Told of the reed itself as soon as it is fitted.
 */
export async function fitForDesk(
  store: LibraryStore,
  reed: Reed,
  { alone, signal }: { alone?: (fit: DeskFit) => void; signal?: AbortSignal } = {},
): Promise<DeskFit> {
  const own = store.models.settled(reed, store.passesOf(reed.id), signal).then((fitted) => {
    const canes = canesOf(store, [reed]);
    const fit: DeskFit = {
      benched: fitted,
      favourites: [],
      original: canes.get(reed.id),
      canes,
    };
    alone?.(fit);
    return fit;
  });
  const [fit, favourites] = await Promise.all([
    own,
    Promise.all(favouritesOf(store, reed).map((example) => favouriteAt(store, example, signal))),
  ]);
  const followed = await resolveFollow(store, followOf(store, reed));
  return {
    ...fit,
    favourites: favourites.filter((favourite) => favourite !== undefined),
    canes: canesOf(store, [reed, ...(followed?.reeds ?? []).map((one) => one.reed)]),
    ...(followed && { followed }),
  };
}

async function favouriteAt(
  store: LibraryStore,
  example: Reed,
  signal: AbortSignal | undefined,
): Promise<ReedAtPass | undefined> {
  const benched = await store.models.settled(example, store.passesOf(example.id), signal);
  const pass = benched.passes.findIndex(({ index }) => index === example.favourite?.passIndex);
  return benched.model && { benched, pass: pass < 0 ? benched.passes.length - 1 : pass };
}
