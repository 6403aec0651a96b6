/** Changes that are being kept; nothing while there are none. */
let beingKept: Promise<unknown> | undefined;

/** Makes work that nobody waits for wait for a change to be kept: on the page's thread, and for the database. */
export function keepFirst(change: Promise<unknown>): void {
  const all = Promise.allSettled([beingKept, change]).then(() => {
    if (beingKept === all) beingKept = undefined;
  });
  beingKept = all;
}

/** When the page has nothing else to do; engines without that word get a moment. */
const idle = () =>
  new Promise<void>((resolve) => {
    if ('requestIdleCallback' in window) requestIdleCallback(() => resolve(), { timeout: 2000 });
    else setTimeout(resolve, 200);
  });

/** Resolves when the page has nothing else to do and nothing is being kept. */
export async function spareTime(): Promise<void> {
  do {
    await beingKept;
    await idle();
  } while (beingKept);
}
