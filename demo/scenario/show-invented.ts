import type { LibraryStore } from '../../components/store/library-store.ts';

/** The same working life of invented reeds for everyone. */
const LIFE_SEED = 1;

/** Brings what was cleared away out of the bin; false when nothing invented is there. */
async function bringBack(store: LibraryStore): Promise<boolean> {
  const cleared = store.snapshot.deleted.filter(({ invented }) => invented).map(({ id }) => id);
  return cleared.length > 0 && store.restore(cleared, 'invented reeds');
}

/** Brings the invented reeds out of the bin when they are there; makes a few otherwise. */
export async function showInvented(store: LibraryStore): Promise<void> {
  if (await bringBack(store)) return;
  const { inventedReeds } = await import('./invented-reeds.ts');
  const random = (count: number) => crypto.getRandomValues(new Uint8Array(count));
  await store.keep(inventedReeds(new Date(), random), 'invented reeds');
}

/** The same with a whole working life of them. */
export async function showInventedLife(store: LibraryStore): Promise<void> {
  if (await bringBack(store)) return;
  const { inventedLibrary } = await import('./invented-library.ts');
  await store.keep(inventedLibrary(new Date(), LIFE_SEED), 'a working life of invented reeds');
}

export async function clearInvented(store: LibraryStore): Promise<void> {
  const documents = Object.values(store.snapshot.live).flat();
  const ids = documents.filter(({ invented }) => invented).map(({ id }) => id);
  await store.remove(ids, 'clearing the invented reeds away');
}
