import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFaults } from './axe-faults.ts';
import { openBench, watchedPage, type Bench } from './launch.ts';

const SHEET = readFileSync('tests/samples/passes/sample-plain.csv', 'utf8');

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'allow' });
});
afterAll(() => bench.close());

/** Width and height in the head of a PNG: https://www.w3.org/TR/png-3/#11IHDR. */
function pngSize(path: string): string {
  const bytes = readFileSync(path);
  expect(bytes.subarray(1, 4).toString()).toBe('PNG');
  return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`;
}

interface Picture {
  readonly src: string;
  readonly sizes: string;
  readonly type: string;
  readonly purpose?: string;
}

interface Manifest {
  readonly id: string;
  readonly icons: readonly Picture[];
  readonly screenshots: readonly Picture[];
  readonly shortcuts: readonly { readonly url: string; readonly icons: readonly Picture[] }[];
  readonly file_handlers: readonly { readonly accept: Readonly<Record<string, readonly string[]>> }[];
}

describe('the bench as something to install', () => {
  it('is taken by the browser’s own check of what can be installed', async () => {
    const client = await bench.context.newCDPSession(bench.page);
    const { errors } = await client.send('Page.getAppManifest');
    expect(errors).toEqual([]);
    const { installabilityErrors } = await client.send('Page.getInstallabilityErrors');
    // A window of its own without history, as tests use it, is never installed from.
    expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([]);
  });

  it('has every picture that its manifest names, in the size that it names', () => {
    const manifest = JSON.parse(readFileSync('dist/manifest.webmanifest', 'utf8')) as Manifest;
    const { icons, screenshots, shortcuts } = manifest;
    const pictures = [...icons, ...screenshots, ...shortcuts.flatMap((one) => one.icons)];
    for (const { src, sizes } of pictures.filter(({ type }) => type === 'image/png'))
      expect(pngSize(join('dist', src)), src).toBe(sizes);
    expect(icons.map(({ sizes, purpose }) => `${sizes} ${purpose}`)).toEqual(
      expect.arrayContaining(['192x192 any', '512x512 any', '512x512 maskable']),
    );
    expect(pngSize('dist/icons/apple.png')).toBe('180x180');
    expect(manifest.file_handlers.flatMap(({ accept }) => Object.values(accept).flat())).toEqual([
      '.csv',
      '.json',
      '.zip',
    ]);
  });

  it('starts a round of the reed of last time from its shortcut', async () => {
    const { page, problems } = await watchedPage(bench.context);
    await page.goto(bench.served.url);
    await page.getByRole('button', { name: 'Look at invented reeds' }).click();
    await page.locator('.slots').waitFor();
    const { shortcuts } = JSON.parse(readFileSync('dist/manifest.webmanifest', 'utf8')) as Manifest;
    await page.close();
    const other = await watchedPage(bench.context);
    await other.page.goto(new URL(shortcuts[0]!.url, bench.served.url).href);
    await other.page.locator('bench-round-start').waitFor();
    expect([...problems, ...other.problems]).toEqual([]);
    await other.page.close();
  });
});

/** Runs in the page: lets go of a file over an element, as a pointer from outside the browser does. */
function dropFile({ name, text, onto }: { name: string; text: string; onto: string }): boolean {
  const dataTransfer = new DataTransfer();
  dataTransfer.items.add(new File([text], name));
  const target = document.querySelector('bench-app')!.shadowRoot!.querySelector(onto)!;
  const init = { dataTransfer, bubbles: true, composed: true, cancelable: true };
  const isTaken = !target.dispatchEvent(new DragEvent('dragover', init));
  target.dispatchEvent(new DragEvent('drop', init));
  return isTaken;
}

const understood = (page: Page) => page.getByText('Nothing is kept yet.').waitFor();

describe('a file that reaches the page', () => {
  it('by being dropped anywhere leads to Bring in, read as if chosen there, once', async () => {
    const { page, problems } = await watchedPage(bench.context);
    await page.goto(`${bench.served.url}#/room`);
    await page.locator('bench-room').waitFor();
    expect(await page.evaluate(dropFile, { name: 'd.csv', text: SHEET, onto: 'bench-room' })).toBe(true);
    await understood(page);
    expect(await axeFaults(page)).toEqual([]);
    await page.evaluate(() => (location.hash = '#/room'));
    await page.locator('bench-room').waitFor();
    await page.evaluate(() => (location.hash = '#/bring-in'));
    await page.getByRole('heading', { name: /^Bring in/ }).waitFor();
    expect(await page.getByText('Nothing is kept yet.').count()).toBe(0);
    expect(problems).toEqual([]);
    await page.close();
  });

  it('by being opened with the installed page leads there as well', async () => {
    const { page, problems } = await watchedPage(bench.context);
    await page.addInitScript((text) => {
      const files = [{ getFile: () => Promise.resolve(new File([text], 'opened.csv')) }];
      const launchQueue = { setConsumer: (take: (launch: object) => void) => take({ files }) };
      Object.defineProperty(globalThis, 'launchQueue', { value: launchQueue });
    }, SHEET);
    await page.goto(bench.served.url);
    await understood(page);
    expect(problems).toEqual([]);
    await page.close();
  });
});

it('has the licences of everything that is built in, in full, one step from Setup', async () => {
  const { page, problems } = await watchedPage(bench.context);
  await page.goto(`${bench.served.url}#/setup`);
  const opened = bench.context.waitForEvent('page');
  await page.getByRole('link', { name: 'What the bench is built from' }).click();
  const licences = await opened;
  await licences.getByRole('heading', { name: /^Licences of what/ }).waitFor();
  const text = (await licences.locator('body').textContent())!;
  const { dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
    dependencies: Record<string, string>;
  };
  for (const [name, version] of Object.entries(dependencies)) expect(text).toContain(`${name} ${version}`);
  // Dexie's licence asks for its whole text to go with it; so does fft.js, deep down, in one paragraph.
  expect(text).toContain('TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION');
  expect(text).toContain('END OF TERMS AND CONDITIONS');
  expect(text).toContain('Copyright Fedor Indutny, 2017.');
  expect(text).toContain('Cynthia Brewer');
  expect(await axeFaults(licences)).toEqual([]);
  expect(problems).toEqual([]);
  await licences.close();
  await page.close();
});
