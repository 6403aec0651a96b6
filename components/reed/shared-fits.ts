import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { benchedFrom, withSurfaces, type FitOrder } from '../../src/answers/concurrent/fit-request.ts';
import type { ReedDraft } from '../../src/exchange/csv/drafts.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import { documentsOf } from '../../src/reed/documents-of.ts';
import { makeFitThread, type FitThread } from '../store/fit-thread.ts';
import { startFits } from './start-fits.ts';

/** A fitted reed, and what was found in its passes once that is known. */
export interface FittedSoFar {
  readonly benched: FittedReed;
  readonly found?: readonly PassFaults[];
}

interface SharedFit {
  readonly first: Promise<FittedSoFar>;
  readonly settled: Promise<FittedSoFar>;
  readonly stop: AbortController;
  users: number;
}

/** Of all elements of the page: several of one reed have one fit. */
const fits = new Map<string, SharedFit>();
let thread: FitThread | undefined;

function begin(order: FitOrder): SharedFit {
  thread ??= makeFitThread(startFits);
  const { ask } = thread;
  const stop = new AbortController();
  const first = ask({ ...order, want: 'surfaces' }, stop.signal).then((answer) => ({
    benched: benchedFrom(order, answer),
  }));
  const settled = first.then(async ({ benched }) => {
    const { faults = [], settled: surfaces } = await ask({ ...order, want: 'faults' }, stop.signal);
    return {
      benched: surfaces ? { ...withSurfaces(benched, surfaces), found: faults } : benched,
      found: faults,
    };
  });
  // Whoever waits hears of it; who has given up does not.
  settled.catch(() => undefined);
  return { first, settled, stop, users: 0 };
}

function release(key: string, fit: SharedFit): void {
  fit.users -= 1;
  if (fit.users > 0) return;
  fit.stop.abort();
  fits.delete(key);
  if (fits.size > 0) return;
  thread?.close();
  thread = undefined;
}

/** How many fits the page's elements hold, for a test of what they leave behind. */
export const heldFits = (): number => fits.size;

/**
 * The fit of a reed, first as its readings say, then as the bench shows it while faults of its passes are asked.
 *
 * @param signal Gives it up; what nobody holds any more is stopped and forgotten.
 */
export async function* sharedFit(
  reed: ReedDraft,
  styleId: string,
  signal: AbortSignal,
): AsyncGenerator<FittedSoFar> {
  signal.throwIfAborted();
  const key = `${styleId} ${JSON.stringify(reed)}`;
  const fit = fits.get(key) ?? begin({ key, gauges: [], ...documentsOf(reed, styleId) });
  fits.set(key, fit);
  fit.users += 1;
  signal.addEventListener('abort', () => release(key, fit), { once: true });
  yield await fit.first;
  yield await fit.settled;
}
