import { ContextProvider } from '@lit/context';
import { libraryContext } from '../../components/store/library-controller.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import { openLedger } from '../../src/ledger/ledger.ts';

let count = 0;

/** A library of its own, empty, with an element around which it is shared. */
export async function emptyLibrary(): Promise<{ store: LibraryStore; host: HTMLElement }> {
  const ledger = await openLedger({ name: `test ${Date.now()} ${count++}` });
  const store = await LibraryStore.over(ledger);
  const host = document.createElement('div');
  new ContextProvider(host, { context: libraryContext, initialValue: store });
  document.body.append(host);
  return { store, host };
}
