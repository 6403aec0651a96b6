import type { LibraryStore } from '../store/library-store.ts';
import { spareTime } from '../store/spare-time.ts';
import { knownReeds } from './summaries.ts';

/** A library that has just come is shown first. Common practice, no source. */
const QUIET_MS = 300;

/**
 * Works the figures of all reeds out when reeds have come, so that a question about the whole library is answered at
 * once. What changes in a reed is worked out when it is asked for.
 */
export function workAhead(store: LibraryStore): void {
  let seen = 0;
  let isWorking = false;

  async function work(): Promise<void> {
    const count = store.snapshot.live.reed.length;
    if (isWorking || count === seen) return;
    isWorking = true;
    seen = count;
    try {
      const all = knownReeds(store);
      while (!(await all.next()).done) await spareTime();
    } finally {
      isWorking = false;
    }
    await work();
  }

  // What fails here is told where it is asked for.
  const later = () => setTimeout(() => void work().catch(() => undefined), QUIET_MS);
  store.addEventListener('bench-library-change', later);
  later();
}
