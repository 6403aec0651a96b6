import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { everyPlace, openFolds, unfolded } from './every-place.ts';
import { launchBrowser, openBench } from './launch.ts';

const SIZES = [
  { width: 390, height: 844 },
  { width: 1440, height: 900 },
] as const;
const SCHEMES = ['light', 'dark'] as const;
/** Ages and dates are drawn: all pictures are of one day. */
const TODAY = new Date('2026-03-01T09:00:00Z');

/** Takes a picture of every place of the built page, everything unfolded, into a folder. */
export async function takeScreens(folder: string): Promise<number> {
  mkdirSync(folder, { recursive: true });
  const bench = await openBench({ viewport: SIZES[0], reducedMotion: 'reduce' });
  const { page } = bench;
  try {
    await page.clock.setFixedTime(TODAY);
    await page.addInitScript(sameChances);
    await page.addInitScript(sameStorage);
    await page.reload();
    const places = await everyPlace(page);
    for (const size of SIZES)
      for (const colorScheme of SCHEMES) {
        await page.setViewportSize(size);
        await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
        for (const place of places) {
          await unfolded(page, place);
          const name = `${place.name.replaceAll('/', '-').replace(/[0-9a-f-]{36}/, 'own')}-${size.width}-${colorScheme}.png`;
          writeFileSync(join(folder, name), await settledPicture(page));
        }
      }
    return places.length * SIZES.length * SCHEMES.length;
  } finally {
    await bench.close();
  }
}

/** Runs in the page: identifiers are drawn, and what stands at one moment goes by them. */
function sameChances() {
  let state = 1;
  crypto.getRandomValues = (array) => {
    const bytes = new Uint8Array(array!.buffer, array!.byteOffset, array!.byteLength);
    for (let i = 0; i < bytes.length; i++) {
      state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
      bytes[i] = state >> 16;
    }
    return array;
  };
}

/** Runs in the page: how much of the disk is used hangs on the machine, and on when the browser tidies up. */
function sameStorage() {
  navigator.storage.estimate = async () => ({ usage: 150e3, quota: 10e9 });
}

/** The picture of a page that has come to rest: nothing is worked on, and it stays the same. */
async function settledPicture(page: Page): Promise<Buffer> {
  const take = () => page.screenshot({ fullPage: true, animations: 'disabled' });
  let last = await take();
  for (let tries = 0; tries < 20; tries++) {
    await page.getByText('refining', { exact: true }).first().waitFor({ state: 'hidden' });
    await page.waitForTimeout(1000);
    // What was worked out meanwhile may have folds of its own.
    await page.evaluate(openFolds);
    const next = await take();
    if (next.equals(last)) return next;
    last = next;
  }
  return last;
}

/** What differs between two folders of pictures: names, each with the number of pixels that are not the same. */
export async function compareScreens(before: string, after: string): Promise<string[]> {
  const names = [...new Set([...readdirSync(before), ...readdirSync(after)])].sort();
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage();
    const found: string[] = [];
    for (const name of names) {
      const [then, now] = [before, after].map((folder) => bytesOf(join(folder, name)));
      if (!then || !now) found.push(`${name}: only ${then ? 'before' : 'after'}`);
      else if (!then.equals(now)) found.push(`${name}: ${await differing(page, then, now)}`);
    }
    return found;
  } finally {
    await browser.close();
  }
}

function bytesOf(path: string): Buffer | undefined {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}

async function differing(page: Page, then: Buffer, now: Buffer): Promise<string> {
  const pixels = await page.evaluate(
    countDiffering,
    [then, now].map((one) => one.toString('base64')),
  );
  return pixels === undefined ? 'another size' : `${pixels} pixels`;
}

/** Runs in the page. */
async function countDiffering(pictures: readonly string[]): Promise<number | undefined> {
  const [then, now] = await Promise.all(
    pictures.map(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
      context.drawImage(bitmap, 0, 0);
      return context.getImageData(0, 0, bitmap.width, bitmap.height);
    }),
  );
  if (!then || !now || then.width !== now.width || then.height !== now.height) return undefined;
  const [a, b] = [then, now].map(({ data }) => new Uint32Array(data.buffer));
  return a!.reduce((count, pixel, i) => count + (pixel === b![i] ? 0 : 1), 0);
}
