import { compactingIn } from '../src/ledger/mirror/compacting.ts';
import workerUrl from '../src/ledger/mirror/compact-worker.ts?worker&url';
import { openBrowserMirror, type Mirror } from '../src/ledger/mirror/mirror.ts';
import { scriptAddress } from '../components/script-address.ts';

/** The second copy of this browser, which a worker keeps in few pieces. */
export async function openMirror(): Promise<Mirror | undefined> {
  const mirror = await openBrowserMirror();
  const start = () => new Worker(scriptAddress(workerUrl), { type: 'module', name: 'second copy' });
  return mirror && ('Worker' in globalThis ? compactingIn(start, mirror) : mirror);
}
