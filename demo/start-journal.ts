import { openJournal, type Journal } from '../src/ledger/journal/journal.ts';
import workerUrl from '../src/ledger/journal/worker.ts?worker&url';
import { scriptAddress } from '../components/script-address.ts';

/** The journal of this window, where the browser can keep one. */
export function startJournal(): Journal | undefined {
  if (!('getDirectory' in (navigator.storage ?? {})) || !('locks' in navigator)) return undefined;
  return openJournal(new Worker(scriptAddress(workerUrl), { type: 'module', name: 'hundredths' }));
}
