import type { LibraryStore } from '../../components/store/library-store.ts';

/** Brings the invented reeds out of the bin when they are there; makes them otherwise. */
export async function showInvented(store: LibraryStore): Promise<void> {
  const cleared = store.snapshot.deleted.filter(({ invented }) => invented).map(({ id }) => id);
  if (cleared.length > 0) {
    await store.restore(cleared, 'invented reeds');
    return;
  }
  const { inventedReeds } = await import('./invented-reeds.ts');
  const random = (count: number) => crypto.getRandomValues(new Uint8Array(count));
  await store.keep(inventedReeds(new Date(), random), 'invented reeds');
}

export async function clearInvented(store: LibraryStore): Promise<void> {
  const documents = Object.values(store.snapshot.live).flat();
  const ids = documents.filter(({ invented }) => invented).map(({ id }) => id);
  await store.remove(ids, 'clearing the invented reeds away');
}
