import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { openBench, openFresh, watchedPage, type Bench } from './launch.ts';

let first: Bench;
let bench: Bench;
beforeAll(async () => {
  first = await openBench();
});
afterAll(() => first.close());
beforeEach(async () => {
  bench = await openFresh(first);
  await bench.page.getByText('Nothing here yet').waitFor();
});
afterEach(() => bench.close());

const goTo = (page: Page, place: string) => page.evaluate((at) => (location.hash = `#/${at}`), place);

/** Fills in a new reed and asks to keep it. */
async function newReed(page: Page, label: string): Promise<void> {
  await goTo(page, 'case');
  await page.getByRole('button', { name: 'New reed' }).click();
  await page.getByLabel('Label').fill(label);
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
}

/** A new reed, kept: the page goes on to its bench. */
async function keptReed(page: Page, label: string): Promise<void> {
  await newReed(page, label);
  await page.getByRole('heading', { name: label }).first().waitFor();
}

/** Waits until the case shows reeds of these labels. */
async function seen(page: Page, ...labels: string[]): Promise<void> {
  await goTo(page, 'case');
  for (const label of labels) await page.locator('bench-case .slots').getByText(label).first().waitFor();
}

const QUOTA_BYTES = 20e6;

/** Runs in the page: fills what is left of the quota to the last few hundred bytes. */
async function fillDisk(): Promise<void> {
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open('filler');
    request.onupgradeneeded = () => request.result.createObjectStore('filler', { autoIncrement: true });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const fits = (bytes: number) =>
    new Promise<boolean>((resolve) => {
      const transaction = database.transaction('filler', 'readwrite', { durability: 'strict' });
      // Random bytes, so that the engine cannot make them smaller.
      const block = new Uint8Array(bytes);
      for (let at = 0; at < bytes; at += 65_536) crypto.getRandomValues(block.subarray(at, at + 65_536));
      transaction.objectStore('filler').add(block);
      transaction.oncomplete = () => resolve(true);
      transaction.onabort = () => resolve(false);
    });
  for (let bytes = 4e6; bytes > 200; bytes /= 2) while (await fits(bytes));
  database.close();
}

it('says so when the disk is full, still gives a copy away, and goes on when there is room again', async () => {
  // The quota is set before the page first asks for it: the browser remembers its answer for a while.
  const { page } = await watchedPage(await bench.browser.newContext());
  const session = await page.context().newCDPSession(page);
  const { origin } = new URL(bench.served.url);
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: QUOTA_BYTES });
  await page.goto(bench.served.url);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await keptReed(page, 'K-1');
  await page.evaluate(fillDisk);
  await newReed(page, 'K-2');
  await page.locator('bench-trouble').getByText('The disk space for this page is used up').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'To the copies' }).click();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'The same as JSON' }).click();
  const { documents } = JSON.parse(readFileSync(await (await download).path(), 'utf8')) as {
    documents: { label?: string }[];
  };
  expect(documents.flatMap(({ label }) => label ?? [])).toEqual(['K-1']);
  await session.send('Storage.overrideQuotaForOrigin', { origin });
  await keptReed(page, 'K-3');
  expect(await page.locator('bench-trouble').getByText('is used up').count()).toBe(0);
});

/** Runs in the page: holds the library open as a program of an earlier version that never lets go. */
const holdOld = () =>
  new Promise<void>((resolve, reject) => {
    const request = indexedDB.open('hundredths', 10);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('documents', { keyPath: 'id' });
      request.result.createObjectStore('acts', { keyPath: 'id' }).createIndex('roundId', 'roundId');
      request.result.createObjectStore('device', { keyPath: 'key' });
    };
    request.onsuccess = () => {
      Object.assign(window, { held: request.result });
      resolve();
    };
    request.onerror = () => reject(request.error);
  });

it('waits with a sentence while another window holds up the upgrade, and goes on when it is closed', async () => {
  const { page, context, served } = bench;
  const holder = await context.newPage();
  await holder.goto(`${served.url}icon.svg`);
  await page.close();
  await holder.evaluate(
    () => new Promise((resolve) => (indexedDB.deleteDatabase('hundredths').onsuccess = resolve)),
  );
  await holder.evaluate(holdOld);
  const { page: waiting, problems } = await bench.openAnother();
  await waiting.getByText('Another window holds the library. Close it, and this one goes on.').waitFor();
  await holder.close();
  await waiting.getByText('Nothing here yet').waitFor();
  expect(await waiting.getByText('Another window holds').count()).toBe(0);
  // The browser itself says in the console that the upgrade is held up.
  expect(problems.filter((problem) => !problem.includes('blocked by other connection'))).toEqual([]);
});

/** Runs in the page: what a newer version of the program does in another window. */
const upgradeBeyond = () =>
  new Promise<void>((resolve, reject) => {
    const request = indexedDB.open('hundredths', 990);
    request.onupgradeneeded = () => request.result.createObjectStore('ofTomorrow');
    request.onsuccess = () => {
      request.result.close();
      resolve();
    };
    request.onerror = () => reject(request.error);
  });

it('lets a newer version in another window have the library, and then reads it only', async () => {
  const { page, context, served } = bench;
  await keptReed(page, 'K-1');
  const newer = await context.newPage();
  await newer.goto(`${served.url}icon.svg`);
  await newer.evaluate(upgradeBeyond);
  await page.getByText('brought it to a newer version').waitFor();
  await page.getByRole('button', { name: 'Reload' }).click();
  await seen(page, 'K-1');
  await newReed(page, 'K-2');
  await page.locator('bench-trouble').getByText('It can be read and exported here').waitFor();
  await page.reload();
  await seen(page, 'K-1');
  expect(await page.getByText('K-2').count()).toBe(0);
});

it('loses no change of two windows that write by turns and at once', async () => {
  const { page } = bench;
  const { page: other } = await bench.openAnother();
  await other.getByText('Nothing here yet').waitFor();
  for (let n = 0; n < 2; n++) {
    await Promise.all([keptReed(page, `A-${n}`), keptReed(other, `B-${n}`)]);
    for (const window of [page, other]) await seen(window, `A-${n}`, `B-${n}`);
  }
});

it('goes on when one of its elements throws, keeps what was kept, and has a report to pass on', async () => {
  const { page } = bench;
  await keptReed(page, 'K-1');
  await page.evaluate(() => {
    const { prototype } = customElements.get('bench-case-aside') as { prototype: { render: () => unknown } };
    prototype.render = () => {
      throw new TypeError('K-1 is broken');
    };
  });
  await keptReed(page, 'K-2');
  await goTo(page, 'case');
  await page.getByText('came upon something that it does not understand').waitFor();
  await page.getByText('A report to pass on').click();
  const report = await page.locator('bench-trouble pre').textContent();
  expect(report).toContain('error: TypeError');
  expect(report).not.toContain('K-1');
  await page.getByRole('button', { name: 'Good' }).click();
  await goTo(page, 'setup');
  await page.getByRole('heading', { name: 'The bin' }).waitFor();
  await page.reload();
  await seen(page, 'K-1', 'K-2');
});

it('asks for nothing after it has loaded, but for the worker’s own look for a newer version', async () => {
  const laidBy = await openFresh(first, { serviceWorkers: 'allow' });
  const { page, served, requests, problems } = laidBy;
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.reload();
  await page.getByText('Nothing here yet').waitFor();
  await page.waitForLoadState('networkidle');
  const [asked, before] = [served.asked.length, requests.length];
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  await page.getByText('K-117').first().waitFor();
  for (const place of ['bench', 'setup', 'bring-in', 'cane', 'gauge', 'room', 'rotation', 'case']) {
    await goTo(page, place);
    await page.waitForLoadState('networkidle');
  }
  const ours = served.asked.slice(asked).filter((path) => path !== '/service-worker.js');
  expect(ours).toEqual([]);
  const foreign = requests
    .slice(before)
    .filter((url) => !url.startsWith(served.url) && !url.startsWith('blob:'));
  expect(foreign).toEqual([]);
  expect(problems).toEqual([]);
  await laidBy.close();
});
