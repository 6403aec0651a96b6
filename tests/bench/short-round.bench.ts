import { median } from 'd3-array';
import type { CDPSession, Page } from 'playwright-core';
import { openBench, openFresh, type Bench } from '../journeys/launch.ts';
import { askedFor, inHand, keepMaker, readingAt } from '../journeys/maker-round.ts';
import { aloneMs, besideReference } from './alone.ts';

/** The maker's reeds that teach what to expect. */
const REEDS = 30;
/** What a short round is to leave of doubt, half of a 95 % interval, mm. */
const DOUBT_MM = 0.0075;
const MOST_KEYS = 60;
/** Readings before this one warm the page up. */
const WARM_UP = 3;
/** An Enter sooner than this after a reading is taken for its bounce. */
const BOUNCE_MS = 1000;
const LOADS = 5;
/** Time for what is written after a change: the second copy, what was worked out. */
const SETTLE_MS = 3000;
const VIEW = { viewport: { width: 1440, height: 900 } };

/** A round of both blades by keys alone, two digits going on by themselves, from its first page to the pass it becomes. */
interface Typed {
  readonly reedId: string;
  readonly keys: number;
  /** As the script types, on a machine with nothing else to do. */
  readonly seconds: number;
  /** Of the page's thread at each reading: its keys, and all that follows until the next place is asked for. */
  readonly threadMs: readonly number[];
}

/** What the page's thread has worked so far, ms. */
async function workedMs(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  return metrics.find(({ name }) => name === 'ThreadTime')!.value * 1000;
}

/** Types every place that is asked for. @returns Work of the page's thread at each. */
async function readPlaces(page: Page, press: (key: string) => Promise<void>): Promise<number[]> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const times: number[] = [];
  for (let place = await askedFor(page); place; place = await askedFor(page)) {
    const before = await workedMs(session);
    for (const key of readingAt(place)) await press(key);
    const next = page.locator('bench-round').locator(`.figure input:not([aria-label="${place.label}"])`);
    await next.waitFor({ state: 'attached' });
    times.push((await workedMs(session)) - before);
  }
  await session.detach();
  return times;
}

async function typeRound({ page }: Bench, kind: 'short' | 'full'): Promise<Typed> {
  const reedId = await keepMaker(page, REEDS);
  await page.evaluate((id) => (location.hash = `#/round/${id}`), reedId);
  await page.getByText(`${REEDS} of your reeds tell what to expect.`).waitFor();
  await page.getByLabel('to, in hundredths of a mm').selectOption(String(DOUBT_MM));
  const start = kind === 'short' ? 'Start the short round' : 'Full map';
  await page.getByRole('button', { name: start }).first().focus();
  let keys = 0;
  const press = async (key: string) => {
    keys += 1;
    await page.keyboard.press(key);
  };
  const from = performance.now();
  const { value, slowed } = await besideReference(async () => {
    await press('Enter');
    await inHand(page);
    const threadMs = await readPlaces(page, press);
    await page.locator('bench-round').locator('.main-button:enabled').waitFor();
    await page.waitForTimeout(BOUNCE_MS);
    // Places are offered to be read again after a full map.
    if (kind === 'full') await press('*');
    await press('Enter');
    await page.locator('bench-there-now').waitFor();
    return threadMs;
  });
  return {
    reedId,
    keys,
    seconds: (performance.now() - from) / 1000 / slowed,
    threadMs: value.slice(WARM_UP),
  };
}

/** From the end of loading to the maps of a reed, ms. */
async function openingMs(page: Page): Promise<number> {
  await page.reload({ waitUntil: 'load' });
  await page
    .locator('bench-there-now')
    .locator('bench-blade-map [role="gridcell"]')
    .first()
    .waitFor({ state: 'attached' });
  return page.evaluate(
    () =>
      performance.now() -
      (performance.getEntriesByType('navigation')[0] as PerformanceNavigationTiming).loadEventEnd,
  );
}

/** Says in Setup whether the other reeds tell of one that is read in few places. */
function setOthers(page: Page, fromOthers: boolean): Promise<void> {
  return page.evaluate(async (value) => {
    interface Store {
      choices: object;
      snapshot: { live: { settings: object[] } };
      keep(drafts: object[], what: string): Promise<boolean>;
    }
    const { store } = document.querySelector('bench-app') as unknown as { store: Store };
    const settings = { ...store.snapshot.live.settings[0], ...store.choices, kind: 'settings' };
    await store.keep([{ ...settings, fromOthers: value }], 'settings');
  }, fromOthers);
}

/** What a short round takes beside the full map, and what a learned prior costs in keys and at an opening. */
export default async function run() {
  const bench = await openBench(VIEW);
  try {
    const full = await typeRound(await openFresh(bench, VIEW), 'full');
    const short = await typeRound(bench, 'short');
    const { page } = bench;
    await page.evaluate((id) => (location.hash = `#/bench/${id}/there`), short.reedId);
    await page.waitForTimeout(SETTLE_MS);
    const learned = await aloneMs(LOADS, () => openingMs(page));
    await setOthers(page, false);
    await page.waitForTimeout(SETTLE_MS);
    const alone = await aloneMs(LOADS, () => openingMs(page));
    const from = `${REEDS} reeds in the library`;
    const typed = ({ seconds }: Typed) => `typed by script in ${seconds.toFixed(1)} s`;
    return [
      {
        name: 'keys of a short round of both blades',
        value: short.keys,
        unit: 'keys',
        limit: MOST_KEYS,
        note: typed(short),
      },
      { name: 'keys of the full map', value: full.keys, unit: 'keys', note: typed(full) },
      {
        name: 'a reading of a short round, median',
        value: median(short.threadMs)!,
        unit: 'ms',
        limit: 50,
        note: from,
      },
      { name: 'a reading of the full map, median', value: median(full.threadMs)!, unit: 'ms', note: from },
      { name: 'a reed read in few places opens, by what others teach', limit: 1500, ...learned },
      { name: 'the same by its own readings alone', ...alone },
    ];
  } finally {
    await bench.close();
  }
}
