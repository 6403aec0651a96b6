import { scriptAddress } from '../components/script-address.ts';
import fitUrl from '../src/answers/concurrent/fit-worker.ts?worker&url';
import { readHere, readerIn, type Reader } from '../src/incoming/reader.ts';
import readUrl from '../src/incoming/worker.ts?worker&url';
import { openJournal, type Journal } from '../src/ledger/journal/journal.ts';
import journalUrl from '../src/ledger/journal/worker.ts?worker&url';
import copyUrl from '../src/ledger/mirror/worker.ts?worker&url';
import { copyingIn } from '../src/ledger/mirror/copying.ts';
import { openBrowserMirror, type Mirror } from '../src/ledger/mirror/mirror.ts';

const start = (url: string, name: string) => new Worker(scriptAddress(url), { type: 'module', name });

/** A worker that fits reeds beside the page. */
export const startFits = (): Worker => start(fitUrl, 'surfaces');

/** Reads what comes from outside away from the page's own thread, where the browser has workers. */
export const startReader = (): Reader =>
  'Worker' in globalThis ? readerIn(() => start(readUrl, 'reader')) : readHere;

/** The second copy of this browser, which a worker writes. */
export async function openMirror(): Promise<Mirror | undefined> {
  const mirror = await openBrowserMirror();
  return mirror && copyingIn(() => start(copyUrl, 'second copy'), mirror);
}

/** The journal of this window, where the browser can keep one; its files go by the worker's name. */
export function startJournal(): Journal | undefined {
  if (!('getDirectory' in (navigator.storage ?? {})) || !('locks' in navigator)) return undefined;
  return openJournal(start(journalUrl, 'hundredths'));
}
