import { LibraryStore } from '../components/store/library-store.ts';
import { openLedger } from '../src/ledger/ledger.ts';
import { openBrowserMirror, type Mirror } from '../src/ledger/mirror.ts';

/** The library of this browser, and where its second copy is kept, if the browser has a place for one. */
export async function openLibrary(
  onWaiting: () => void,
): Promise<{ readonly store: LibraryStore; readonly mirror: Mirror | undefined }> {
  const mirror = await openBrowserMirror();
  const ledger = await openLedger({ onWaiting, ...(mirror && { knownCount: mirror.countOf }) });
  return { store: await LibraryStore.over(ledger), mirror };
}
