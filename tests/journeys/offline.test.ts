import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { buildServiceWorker } from '../../scripts/service-worker.mjs';
import { borrowBrowser, watchedPage, type Borrowed, type Watched } from './launch.ts';
import { serve, type Served } from './static-server.ts';

let folder: string;
let served: Served;
let browser: Borrowed;
let watched: Watched;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hundredths-offline-'));
  cpSync('dist', folder, { recursive: true });
  [served, browser] = await Promise.all([serve(folder), borrowBrowser()]);
  watched = await watchedPage(await browser.newContext());
  await watched.page.goto(served.url);
  await watched.page.evaluate(() => navigator.serviceWorker.ready);
});

afterEach(async () => {
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true });
});

it('opens again without the server, every place of it, from the worker’s cache', async () => {
  const { page, problems } = watched;
  await page.reload();
  await served.close();
  for (const place of ['', '#bench', '#setup', '#bring-in']) {
    await page.goto(`${served.url}${place}`);
    await page.reload();
    await page.locator('bench-top-bar').waitFor();
  }
  expect(problems).toEqual([]);
});

it('uses a newer version only when it is asked for', async () => {
  const { page } = watched;
  await page.reload();
  const file = join(folder, 'index.html');
  writeFileSync(file, readFileSync(file, 'utf8').replace('<body>', '<body data-version="newer">'));
  await buildServiceWorker(folder);
  const version = () => page.evaluate(() => document.body.dataset['version']);
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  const use = page.getByRole('button', { name: 'Use it' });
  await use.waitFor();
  await page.reload();
  await use.waitFor();
  expect(await version()).toBeUndefined();
  await use.click();
  await page.locator('body[data-version="newer"]').waitFor();
  expect(await use.count()).toBe(0);
});
