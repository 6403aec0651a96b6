import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { borrowBrowser, watchedPage, type Borrowed } from './launch.ts';
import { serve, type Served } from './static-server.ts';

let folder: string;
let served: Served;
let browser: Borrowed;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hundredths-sub-folder-'));
  cpSync('dist', join(folder, 'reeds', 'bench'), { recursive: true });
  [served, browser] = await Promise.all([serve(folder), borrowBrowser()]);
});
afterEach(async () => {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true });
});

it('works under a path of a static site, offline too, and asks for nothing above it', async () => {
  const { page, problems, requests } = await watchedPage(await browser.newContext());
  const url = `${served.url}reeds/bench/`;
  await page.goto(url);
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  await page.locator('.slots').waitFor();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await served.close();
  for (const place of ['#/bench', '#/setup', '#/bring-in']) {
    await page.goto(`${url}${place}`);
    await page.reload();
    await page.locator('bench-app main > *').waitFor();
  }
  const isBelow = (address: string) => address.startsWith(url) || address.startsWith('blob:');
  expect(requests.filter((address) => !isBelow(address))).toEqual([]);
  expect(problems).toEqual([]);
});
