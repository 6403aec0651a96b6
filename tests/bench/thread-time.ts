import type { Browser, Page } from 'playwright-core';

/** An event of the browser's trace; `tts` is the clock of its thread, microseconds. */
interface TraceEvent {
  readonly name: string;
  readonly tts?: number;
}

/**
 * Time that the page's thread itself was at work between each mark `begun` and the mark `done` after it, ms: other
 * programs on the machine, and the browser's own other threads, do not count.
 *
 * @param work Sets the marks in the page.
 */
export async function threadMs<T>(
  browser: Browser,
  page: Page,
  work: () => Promise<T>,
): Promise<{ times: number[]; value: T }> {
  await browser.startTracing(page, { categories: ['blink.user_timing'] });
  const value = await work();
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    traceEvents: TraceEvent[];
  };
  const at = (mark: string) =>
    traceEvents.filter(({ name }) => name === mark).map(({ tts = NaN }) => tts / 1000);
  const done = at('done');
  return { times: at('begun').map((start, i) => done[i]! - start), value };
}
