import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { build } from 'esbuild';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { seededRandom } from '../seeded-random.ts';
import { launchBrowser } from './launch.ts';

/** 8 in every run; set KILLS=200 for the long one. */
const KILLS = Number(process.env['KILLS'] ?? 8);
/** Longest life of a page, ms, on a machine that shows a first station as taken within half of it. */
const LONGEST_LIFE_MS = 500;

let server: Server;
let browser: Browser;
let context: BrowserContext;
let url: string;

beforeAll(async () => {
  const { outputFiles } = await build({
    entryPoints: ['tests/journeys/round-page.ts'],
    bundle: true,
    write: false,
    format: 'esm',
    target: 'es2022',
    tsconfig: 'tsconfig.json',
  });
  const script = outputFiles[0]!.text;
  server = createServer(({ url: path }, response) => {
    const isScript = path === '/page.js';
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(
      isScript ? script : '<!doctype html><title>Round</title><script type="module" src="page.js"></script>',
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  browser = await launchBrowser();
  context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
});

afterAll(async () => {
  await browser.close();
  server.close();
});

/** Collects every station that the page shows as taken. */
function watch(page: Page, shown: Set<string>) {
  page.on('console', (message) => {
    const text = message.text();
    if (text.startsWith('taken ')) for (const mark of JSON.parse(text.slice(6)) as string[]) shown.add(mark);
  });
}

async function opened(shown: Set<string>): Promise<Page> {
  const page = await context.newPage();
  watch(page, shown);
  await page.goto(url);
  await page.waitForFunction(() => document.documentElement.dataset['ready'] === 'true');
  return page;
}

/** Types into the round until the page is gone; no hand is faster than a frame a reading. */
async function typeOn(page: Page, count: string): Promise<void> {
  while (!page.isClosed()) {
    for (const key of [...count, 'Enter', ...count, 'Enter', '-', ...count, 'Enter']) {
      await page.keyboard.press(key);
      if (key === 'Enter') await page.evaluate(() => new Promise(requestAnimationFrame));
    }
  }
}

/** Types into the round and kills the renderer in the middle of it, after this time or earlier. */
async function liveAndDie(page: Page, random: () => number, longestMs: number): Promise<void> {
  const session = await context.newCDPSession(page);
  const crashed = new Promise((resolve) => page.once('crash', resolve));
  const die = async () => {
    await new Promise((resolve) => setTimeout(resolve, random() * longestMs));
    await Promise.race([session.send('Page.crash').catch(() => undefined), crashed]);
  };
  const count = String(10 + Math.floor(random() * 50));
  await Promise.all([die(), typeOn(page, count).catch(() => undefined)]);
  await page.close().catch(() => undefined);
}

/** How long this machine takes from the first key to a station that is shown as taken, ms. */
async function msToTaken(shown: Set<string>): Promise<number> {
  const page = await opened(shown);
  const began = performance.now();
  const typing = typeOn(page, '45').catch(() => undefined);
  await expect.poll(() => shown.size).toBeGreaterThan(0);
  const took = performance.now() - began;
  await page.close();
  await typing;
  return took;
}

it(
  'loses nothing that was shown as taken, killed at random moments',
  { timeout: 60_000 + 20_000 * KILLS },
  async () => {
    const random = seededRandom(71);
    const shown = new Set<string>();
    const longestMs = Math.max(LONGEST_LIFE_MS, 2 * (await msToTaken(shown)));
    const before = shown.size;
    for (let kill = 0; kill < KILLS; kill++) {
      const now = new Set<string>();
      const page = await opened(now);
      await page.evaluate(() => undefined);
      expect([...now], `after kill ${kill}`).toEqual(expect.arrayContaining([...shown]));
      await liveAndDie(page, random, longestMs);
      for (const place of now) shown.add(place);
    }
    expect(shown.size - before, 'stations taken while it was killed').toBeGreaterThan(KILLS / 5);
  },
);
