import { build } from 'esbuild';
import type { Page } from 'playwright-core';
import { openBench, type Bench } from '../journeys/launch.ts';
import { aloneMs } from './alone.ts';
import type { Grown } from './grown-page.ts';
import { PATIENCE_MS, returned } from './returned.ts';

declare const grown: Grown;

const LOADS = 3;
/** Reeds that are made before the page is asked anew: the browser takes its breath. */
const AT_ONCE = 100;

type Log = (line: string) => void;

async function maker(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: ['tests/bench/grown-page.ts'],
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    write: false,
  });
  return outputFiles[0]!.text;
}

/** Makes the library in a page of the same origin that is not the bench. */
export async function grow(bench: Pick<Bench, 'context' | 'served'>, reeds: number, log: Log): Promise<void> {
  const page = await bench.context.newPage();
  page.setDefaultTimeout(PATIENCE_MS);
  await page.goto(`${bench.served.url}icon.svg`);
  await page.evaluate(await maker());
  for (let at = 0; at < reeds; at += AT_ONCE) {
    const to = Math.min(reeds, at + AT_ONCE);
    const ms = await page.evaluate(([from, end, all]) => grown.make(from!, end!, all!), [at, to, reeds]);
    log(`${to} of ${reeds} reeds made, the last ${to - at} in ${(ms / 1000).toFixed(1)} s`);
  }
  await page.close();
}

/** Runs in the page: resolves when something is painted, to the page's time, ms. */
function painted([path, selector]: readonly [readonly string[], string]): Promise<number> {
  const isThere = () =>
    path
      .reduce<ParentNode | null | undefined>((root, name) => root?.querySelector(name)?.shadowRoot, document)
      ?.querySelector(selector) != null;
  return new Promise((resolve) => {
    const look = () => (isThere() ? resolve(performance.now()) : void requestAnimationFrame(look));
    look();
  });
}

const LIST = [['bench-app', 'bench-case'], '.slots a'] as const;
const ALL = [['bench-app', 'bench-find'], 'tbody tr'] as const;
const STRIP = [['bench-app', 'bench-desk', 'bench-pass-strip'], 'a'] as const;
const ANSWER = [['bench-app', 'bench-alike'], 'h1'] as const;

async function openedMs(page: Page): Promise<number> {
  await page.evaluate(() => (location.hash = '#/case'));
  await page.reload({ waitUntil: 'commit' });
  return page.evaluate(painted, LIST);
}

/** From a change of the address to what is painted then, ms. */
async function wentMs(page: Page, hash: string, wanted: Parameters<typeof painted>[0]): Promise<number> {
  const from = await page.evaluate((to) => {
    location.hash = to;
    return performance.now();
  }, hash);
  return (await page.evaluate(painted, wanted)) - from;
}

/** The store of the page, as its elements have it. */
interface PageStore {
  readonly reeds: readonly { readonly id: string; readonly note?: string }[];
  readonly keep: (drafts: readonly unknown[], label: string) => Promise<boolean>;
  readonly refresh: () => Promise<void>;
  readonly ledger: { readonly merge: (incoming: unknown) => Promise<unknown> };
}

declare global {
  /** Put into the page before it loads. */
  function benchStore(): PageStore;
}

const giveStore = 'globalThis.benchStore = () => document.querySelector("bench-app").store';

const keptMs = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const store = benchStore();
    const start = performance.now();
    await store.keep([{ ...store.reeds[0], note: `a note ${start}` }], 'a note');
    return performance.now() - start;
  });

/** The longest task of the page while one reed with its passes is taken in, ms. */
async function longestMs(page: Page, number: number): Promise<number> {
  await page.evaluate(await maker());
  return page.evaluate(async (n) => {
    const store = benchStore();
    const tasks: number[] = [0];
    const watch = new PerformanceObserver((list) =>
      tasks.push(...list.getEntries().map(({ duration }) => duration)),
    );
    watch.observe({ type: 'longtask' });
    await store.ledger.merge({ documents: grown.one(n), acts: [] });
    await store.refresh();
    await new Promise((resolve) => setTimeout(resolve, 500));
    watch.disconnect();
    return Math.max(...tasks);
  }, number);
}

function filteredMs(page: Page, text: string): Promise<number> {
  return page.evaluate(async (wanted) => {
    const find = document.querySelector('bench-app')!.shadowRoot!.querySelector('bench-find')!;
    const search = find.shadowRoot!.querySelector<HTMLInputElement>('input[type="search"]')!;
    const start = performance.now();
    search.value = wanted;
    search.dispatchEvent(new Event('input', { bubbles: true }));
    await (find as HTMLElement & { updateComplete: Promise<unknown> }).updateComplete;
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    return performance.now() - start;
  }, text);
}

async function heapMb(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session
    .send('Performance.enable')
    .then(() => session.send('Performance.getMetrics'));
  return metrics.find(({ name }) => name === 'JSHeapUsedSize')!.value / 1e6;
}

/** What a library of so many reeds, with 20 passes of 140 readings each, asks of the page. */
export async function grownLibrary(reeds: number, log: Log = () => undefined) {
  const bench = await openBench({ viewport: { width: 1440, height: 900 } });
  try {
    await grow(bench, reeds, log);
    const { page } = bench;
    await page.addInitScript(giveStore);
    page.setDefaultTimeout(PATIENCE_MS);
    const opened = await aloneMs(LOADS, () => openedMs(page));
    log(`opened in ${opened.value.toFixed(0)} ms`);
    const heap = await heapMb(page);
    const ids = await page.evaluate(() =>
      benchStore()
        .reeds.slice(0, 9)
        .map(({ id }) => id),
    );
    const reed = await aloneMs(LOADS, async () => {
      await wentMs(page, '#/case', LIST);
      return wentMs(page, `#/bench/${ids.pop()}/notes`, STRIP);
    });
    log(`a reed on the bench in ${reed.value.toFixed(0)} ms`);
    const note = await aloneMs(LOADS, () => keptMs(page));
    log(`a note kept in ${note.value.toFixed(0)} ms`);
    let number = reeds;
    const one = await aloneMs(LOADS, () => longestMs(page, ++number));
    log(`one reed taken in, the longest task ${one.value.toFixed(0)} ms`);
    const list = await aloneMs(LOADS, async () => {
      await wentMs(page, '#/case', LIST);
      return wentMs(page, '#/find', ALL);
    });
    const searched = ['concert', 'L-01', 'k', ''];
    const filtered = await aloneMs(searched.length, () => filteredMs(page, searched.shift()!));
    log(`listed in ${list.value.toFixed(0)} ms, searched in ${filtered.value.toFixed(0)} ms`);
    const first = await aloneMs(1, () => wentMs(page, '#/alike', ANSWER));
    await page.waitForTimeout(3000);
    const answer = await aloneMs(1, async () => {
      await openedMs(page);
      return wentMs(page, '#/alike', ANSWER);
    });
    log(`what good reeds share answered in ${answer.value.toFixed(0)} ms`);
    const heapAfter = await heapMb(page);
    const back = await returned(bench, `a copy of ${reeds} reeds`, log);
    const of = `${reeds} reeds`;
    return [
      { name: `the page opens with ${of}`, limit: 1000, ...opened },
      { name: `one of ${of} is on the bench`, limit: 500, ...reed },
      { name: `a note among ${of} is kept`, limit: 50, ...note },
      { name: `longest task while one reed comes to ${of}`, limit: 100, ...one },
      { name: `the list of ${of}`, limit: 1000, ...list },
      { name: `the list of ${of}, filtered`, limit: 100, ...filtered },
      { name: `what good reeds share of ${of}, worked out before`, limit: 3000, ...answer },
      { name: `what good reeds share of ${of}, for the first time`, ...first },
      { name: `memory after opening ${of}`, value: heap, unit: 'MB', limit: 300 },
      { name: `memory after all of it with ${of}`, value: heapAfter, unit: 'MB', limit: 300 },
      ...back,
    ];
  } finally {
    await bench.close();
  }
}

/** A library of so many photographs goes away and comes back. */
export async function photographs(count: number, log: Log = () => undefined) {
  const bench = await openBench();
  try {
    const page = await bench.context.newPage();
    page.setDefaultTimeout(PATIENCE_MS);
    await page.goto(`${bench.served.url}icon.svg`);
    await page.evaluate(await maker());
    for (let at = 0; at < count; at += AT_ONCE)
      log(
        `${await page.evaluate(([from, to]) => grown.photos(from!, to!), [at, Math.min(count, at + AT_ONCE)])} photographs made`,
      );
    await page.close();
    await bench.page.reload();
    return await returned(bench, `${count} photographs`, log);
  } finally {
    await bench.close();
  }
}
