import workerUrl from '../src/answers/concurrent/fit-worker.ts?worker&url';
import { scriptAddress } from '../components/script-address.ts';

/** A worker that fits reeds beside the page. */
export const startFits = (): Worker =>
  new Worker(scriptAddress(workerUrl), { type: 'module', name: 'surfaces' });
