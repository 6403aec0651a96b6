import { scriptAddress } from '../script-address.ts';

/**
 * A worker that fits reeds beside the page: `fit-worker.js` lies beside this module.
 *
 * @throws TypeError or SecurityError where the page, or the place of the script, allows none.
 */
export const startFits = (): Worker =>
  new Worker(scriptAddress(new URL('./fit-worker.js', import.meta.url).href), {
    type: 'module',
    name: 'surfaces',
  });
