import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { build } from 'esbuild';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { seededRandom } from '../seeded-random.ts';
import { launchBrowser } from './launch.ts';

/** 25 in every run; set KILLS=200 for the long one. */
const KILLS = Number(process.env['KILLS'] ?? 25);
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

/** Types into the round and kills the renderer in the middle of it. */
async function liveAndDie(page: Page, random: () => number): Promise<void> {
  const session = await context.newCDPSession(page);
  const crashed = new Promise((resolve) => page.once('crash', resolve));
  const die = async () => {
    await new Promise((resolve) => setTimeout(resolve, random() * LONGEST_LIFE_MS));
    await Promise.race([session.send('Page.crash').catch(() => undefined), crashed]);
  };
  const type = async () => {
    const count = String(10 + Math.floor(random() * 50));
    while (!page.isClosed()) {
      for (const key of [...count, 'Enter', ...count, 'Enter', '-', ...count, 'Enter'])
        await page.keyboard.press(key);
    }
  };
  await Promise.all([die(), type().catch(() => undefined)]);
  await page.close().catch(() => undefined);
}

it('loses nothing that was shown as taken, killed at random moments', { timeout: 400_000 }, async () => {
  const random = seededRandom(71);
  const shown = new Set<string>();
  for (let kill = 0; kill < KILLS; kill++) {
    const now = new Set<string>();
    const page = await opened(now);
    await page.evaluate(() => undefined);
    expect([...now], `after kill ${kill}`).toEqual(expect.arrayContaining([...shown]));
    await liveAndDie(page, random);
    for (const place of now) shown.add(place);
  }
  expect(shown.size, 'stations taken while it was killed').toBeGreaterThan(KILLS / 5);
});
