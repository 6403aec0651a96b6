import { ContextProvider } from '@lit/context';
import { libraryContext } from '../../components/store/library-controller.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { openLedger } from '../../src/ledger/ledger.ts';

let count = 0;

/** An element around which a library is shared. */
export function shareLibrary(store: LibraryStore): HTMLElement {
  const host = document.createElement('div');
  new ContextProvider(host, { context: libraryContext, initialValue: store });
  document.body.append(host);
  return host;
}

/** A library of its own, empty, with an element around which it is shared. */
export async function emptyLibrary(): Promise<{ store: LibraryStore; host: HTMLElement }> {
  const ledger = await openLedger({ name: `test ${Date.now()} ${count++}` });
  const store = await LibraryStore.over(ledger);
  return { store, host: shareLibrary(store) };
}
