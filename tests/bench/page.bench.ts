import type { Page } from 'playwright-core';
import { pageSizes } from '../../scripts/page-size.mjs';
import { openBench } from '../journeys/launch.ts';
import { aloneMs } from './alone.ts';

const LOADS = 5;
/** Time for what is written after a change: the second copy, what was worked out. */
const SETTLE_MS = 3000;
/** For a machine that is busy with other things. */
const PATIENCE_MS = 180_000;
const SEARCHED = ['concert', 'lot', 'k', 'favourite', ''];

/** Something to be shown: elements one in the shadow of the other, and what is looked for in the last of them. */
interface Wanted {
  readonly path: readonly string[];
  readonly selector: string;
}

/** Runs in the page: resolves in the frame that paints what is wanted, to the page's time, ms. */
function shownAt({ path, selector }: Wanted): Promise<number> {
  const isThere = () =>
    path
      .reduce<ParentNode | null | undefined>((root, name) => root?.querySelector(name)?.shadowRoot, document)
      ?.querySelector(selector) != null;
  return new Promise((resolve) => {
    const look = () => {
      if (isThere()) resolve(performance.now());
      else requestAnimationFrame(look);
    };
    look();
  });
}

/** Has every opening of a page note when something is shown. */
async function watchFor(page: Page, wanted: Wanted): Promise<void> {
  await page.addInitScript(
    `window.shownAt = ${shownAt}; window.firstShown = shownAt(${JSON.stringify(wanted)});`,
  );
}

/** From the end of loading to what the page is watched for, ms. */
async function afterLoadMs(page: Page): Promise<number> {
  await page.reload({ waitUntil: 'load', timeout: PATIENCE_MS });
  return page.evaluate(async () => {
    const at = await (window as unknown as { firstShown: Promise<number> }).firstShown;
    return at - (performance.getEntriesByType('navigation')[0] as PerformanceNavigationTiming).loadEventEnd;
  });
}

/** From a change of the address to what is wanted, ms. */
function afterGoingMs(page: Page, hash: string, wanted: Wanted): Promise<number> {
  return page.evaluate(
    async ([to, it]) => {
      const from = performance.now();
      location.hash = to;
      return (await (window as unknown as { shownAt: typeof shownAt }).shownAt(it)) - from;
    },
    [hash, wanted] as const,
  );
}

const THE_MAP: Wanted = {
  path: [
    'bench-app',
    'bench-desk',
    'bench-there-now',
    'bench-reed-map',
    'bench-blade-pair',
    'bench-blade-map',
  ],
  selector: '[role="gridcell"]',
};

/** The first picture of a reed with its numbers, the fit of four passes included. */
async function firstPicture() {
  const bench = await openBench({ viewport: { width: 1440, height: 900 } });
  try {
    const { page } = bench;
    page.setDefaultTimeout(PATIENCE_MS);
    await watchFor(page, THE_MAP);
    await page.getByRole('button', { name: 'Look at invented reeds' }).click();
    const hash = (await page.getByRole('link', { name: /M-142/ }).first().getAttribute('href'))!;
    await page.waitForTimeout(SETTLE_MS);
    await page.evaluate((to) => (location.hash = to), hash);
    const shown = await aloneMs(LOADS, () => afterLoadMs(page));
    return [{ name: 'first picture after load, four passes fitted', limit: 1000, ...shown }];
  } finally {
    await bench.close();
  }
}

const REEDS = 300;
const THE_CASE: Wanted = { path: ['bench-app', 'bench-case'], selector: '.slots a' };
const THE_LIST: Wanted = { path: ['bench-app', 'bench-find'], selector: 'tbody tr' };
const THE_ANSWER: Wanted = { path: ['bench-app', 'bench-alike'], selector: 'h1' };

/** From a key in the search to the list that answers it, ms. */
function filterMs(page: Page, text: string): Promise<number> {
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

/** The page over a working life of reeds. */
async function wholeLibrary() {
  const bench = await openBench({ viewport: { width: 1440, height: 900 } });
  try {
    const { page } = bench;
    page.setDefaultTimeout(PATIENCE_MS);
    await watchFor(page, THE_CASE);
    await page.reload();
    await page.getByRole('button', { name: 'or at a working life of 300' }).click();
    await page.locator('bench-case .slots a').first().waitFor();
    const first = await aloneMs(1, () => afterGoingMs(page, '#/alike', THE_ANSWER));
    await page.waitForTimeout(SETTLE_MS);
    await page.evaluate(() => (location.hash = '#/case'));
    const opened = await aloneMs(LOADS, () => afterLoadMs(page));
    const answer = await aloneMs(LOADS, async () => {
      await afterLoadMs(page);
      const ms = await afterGoingMs(page, '#/alike', THE_ANSWER);
      await afterGoingMs(page, '#/case', THE_CASE);
      return ms;
    });
    const list = await aloneMs(LOADS, async () => {
      await afterGoingMs(page, '#/case', THE_CASE);
      return afterGoingMs(page, '#/find', THE_LIST);
    });
    const searched = [...SEARCHED];
    const filtered = await aloneMs(SEARCHED.length, () => filterMs(page, searched.shift()!));
    return [
      { name: `the page opens with ${REEDS} reeds`, limit: 1000, ...opened },
      { name: `the list of ${REEDS} reeds`, limit: 1000, ...list },
      { name: `the list of ${REEDS} reeds, filtered`, limit: 1000, ...filtered },
      { name: 'what good reeds share, asked just after opening', limit: 1000, ...answer },
      { name: `what good reeds share, none of ${REEDS} reeds worked out before`, ...first },
    ];
  } finally {
    await bench.close();
  }
}

export default async function run() {
  return [...(await firstPicture()), ...(await wholeLibrary()), ...pageSizes()];
}
