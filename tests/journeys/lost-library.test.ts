import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBench, type Bench } from './launch.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

/** The library as its file. */
async function libraryFile(page: Page): Promise<string> {
  await page.evaluate(() => (location.hash = '#/setup'));
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Keep a copy of the library' }).click();
  return readFileSync(await (await download).path(), 'latin1');
}

/** Runs in the page: whether the second copy has caught up with the database. */
async function isMirrored(): Promise<boolean> {
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open('hundredths');
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const device = await new Promise<{ id: string; writes: number; acts: number }>((resolve) => {
    const request = database.transaction('device').objectStore('device').get('device');
    request.onsuccess = () => resolve(request.result);
  });
  database.close();
  const root = await navigator.storage.getDirectory();
  const top = await root.getDirectoryHandle('second-copy', { create: true });
  const folder = await top.getDirectoryHandle(device.id, { create: true });
  const { keys } = folder as unknown as { keys: () => AsyncIterable<string> };
  const counts = [];
  for await (const name of keys.call(folder)) counts.push(parseInt(name, 10));
  return Math.max(0, ...counts) === device.writes + device.acts;
}

/** Runs in the page: what the browser does when it finds its database broken. */
const loseDatabase = () =>
  new Promise<void>((resolve, reject) => {
    const request = indexedDB.deleteDatabase('hundredths');
    request.onsuccess = () => resolve();
    request.onerror = request.onblocked = () => reject(new Error('not deleted'));
  });

it('brings the library back from the second copy when the browser has lost it, and says so', async () => {
  await bench.page.getByRole('button', { name: 'Look at invented reeds' }).click();
  await bench.page.getByText('K-117').first().waitFor();
  const before = await libraryFile(bench.page);
  await expect.poll(() => bench.page.evaluate(isMirrored)).toBe(true);
  const elsewhere = await bench.context.newPage();
  await elsewhere.goto(`${bench.served.url}icon.svg`);
  await bench.page.close();
  await elsewhere.evaluate(loseDatabase);
  await elsewhere.close();

  const { page, problems } = await bench.openAnother();
  await page.getByText('The browser had lost the library').waitFor();
  await page.getByText('K-117').first().waitFor();
  expect(await libraryFile(page)).toBe(before);
  await page.reload();
  await page.getByRole('button', { name: 'Keep a copy of the library' }).waitFor();
  expect(await page.getByText('The browser had lost').count()).toBe(0);
  expect(problems).toEqual([]);
});
