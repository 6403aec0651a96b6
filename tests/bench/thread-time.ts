import { median } from 'd3-array';
import type { Browser, Page } from 'playwright-core';
import { REFERENCE, WORK, type Stretch } from './marks.ts';

/** An event of the browser's trace; `tts` is the clock of its thread, microseconds. */
interface TraceEvent {
  readonly name: string;
  readonly tts?: number;
}

/** What the reference takes on a page's thread, ms, where the machine goes at its own pace. */
const REFERENCE_MS = 1.15;

/**
 * Time that the page's thread itself was at work in each stretch that the page marks, ms: other programs, and the
 * browser's own other threads, do not count. Where the reference beside the stretches says that the machine went more
 * slowly than at its own pace, they did too.
 *
 * @param work Marks its stretches in the page.
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
  const between = ([begun, done]: Stretch) => {
    const at = (mark: string) =>
      traceEvents.filter(({ name }) => name === mark).map(({ tts = NaN }) => tts / 1000);
    const ends = at(done);
    return at(begun).map((start, i) => ends[i]! - start);
  };
  const slowed = Math.max(1, median(between(REFERENCE))! / REFERENCE_MS);
  return { times: between(WORK).map((ms) => ms / slowed), value };
}
