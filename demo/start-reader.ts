import { readHere, readerIn, type Reader } from '../src/incoming/reader.ts';
import workerUrl from '../src/incoming/worker.ts?worker&url';
import { scriptAddress } from '../components/script-address.ts';

/** Reads what comes from outside away from the page's own thread, where the browser has workers. */
export const startReader = (): Reader =>
  'Worker' in globalThis
    ? readerIn(() => new Worker(scriptAddress(workerUrl), { type: 'module' }))
    : readHere;
