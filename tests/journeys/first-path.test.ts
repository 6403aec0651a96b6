import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFaults } from './axe-faults.ts';
import { TEXT_FIELDS } from './every-place.ts';
import { bringIn, tabTo } from './keyboard.ts';
import { openBench, type Bench } from './launch.ts';

const SAMPLE = 'tests/samples/passes/sample-plain.csv';
const LIST = [
  ['K-117 sheet', 'tests/samples/scenario/k-117-sheet.csv'],
  ['M-142', 'tests/samples/scenario/m-142.csv'],
] as const;

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
});
afterAll(() => bench.close());

/** The figure of every station of a blade's map, by place. */
async function stations(page: Page, blade: 'A' | 'B') {
  const labels = await page
    .locator(`bench-blade-map[data-blade="${blade}"] [role="gridcell"]`)
    .evaluateAll((cells) => cells.map((cell) => cell.getAttribute('aria-label') ?? ''));
  return labels;
}

/** Mean colour of a small square at a place of a blade, read from the picture itself. */
async function pixels(page: Page, blade: 'A' | 'B', along: number): Promise<[number, number, number]> {
  const box = (await page.locator(`bench-blade-map[data-blade="${blade}"] svg`).first().boundingBox())!;
  const clip = { x: box.x + box.width * 0.64, y: box.y + box.height * along, width: 3, height: 3 };
  const shot = await page.screenshot({ clip });
  return page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const context = canvas.getContext('2d')!;
    context.drawImage(bitmap, 0, 0);
    return [...context.getImageData(1, 1, 1, 1).data.slice(0, 3)] as [number, number, number];
  }, shot.toString('base64'));
}

describe('from an empty page to what a scrape took', () => {
  it('brings in a reed with the keyboard alone', async () => {
    const { page } = bench;
    await page.getByText('Nothing here yet').waitFor();
    await bringIn(page, SAMPLE);
    await page.locator('bench-there-now').waitFor();
    expect(await page.locator('h1').textContent()).toBe('sample-plain');
  });

  it('shows both blades, thin and pale at the tip, deep further down', async () => {
    const { page } = bench;
    await page.locator('bench-blade-map[data-blade="B"] [role="gridcell"]').first().waitFor();
    for (const blade of ['A', 'B'] as const) {
      expect((await stations(page, blade)).length).toBeGreaterThan(60);
      const [tip, back] = [await pixels(page, blade, 0.17), await pixels(page, blade, 0.62)];
      const light = ([r, g, b]: readonly number[]) => r! + g! + b!;
      expect(light(tip)).toBeGreaterThan(light(back) + 60);
    }
  });

  it('shows what pass 1 took where it was taken, on both blades', async () => {
    const { page } = bench;
    await page.keyboard.press('2');
    await page.locator('bench-taken-off').waitFor();
    await page.keyboard.press('[');
    await page.keyboard.press('[');
    await page.locator('a[aria-current="step"]', { hasText: 'Pass 1' }).waitFor();
    for (const blade of ['A', 'B'] as const) {
      const labels = await stations(page, blade);
      const figures = labels.map((label) => {
        const value = Number(
          /([+−-]?\d+(?:\.\d+)?) hundredths?/.exec(label)?.[1]?.replace('−', '-') ?? Number.NaN,
        );
        return { label, value };
      });
      const most = figures.reduce((best, one) => (one.value > best.value ? one : best));
      // Truth: 2.0 mm from the tip, -0.6 across.
      expect(Math.abs(Number(/([\d.]+)\smm/.exec(most.label)![1]) - 2)).toBeLessThanOrEqual(1);
      expect(most.label).toMatch(/left/);
    }
  });

  it('answers all five questions without a fault that axe finds', async () => {
    const { page } = bench;
    for (const [key, element] of [
      ['1', 'bench-there-now'],
      ['3', 'bench-even'],
      ['4', 'bench-beside'],
      ['5', 'bench-next'],
      ['2', 'bench-taken-off'],
    ] as const) {
      await page.keyboard.press(key);
      await page.locator(element).waitFor();
      // Texts of others are not typed there: the hostile ones pass these places by.
      expect(await page.locator(TEXT_FIELDS.map((field) => `${element} ${field}`).join()).count()).toBe(0);
      expect(await axeFaults(page)).toEqual([]);
    }
  });

  it('finds everything again after a reload, and in a second window', async () => {
    const { page } = bench;
    await page.reload();
    await page.locator('bench-taken-off').waitFor();
    const other = await bench.openAnother();
    await other.page.getByText('sample-plain').first().waitFor();
    expect(other.problems).toEqual([]);
    await other.page.close();
  });

  it('sets a reed beside a favourite, and plans from it', async () => {
    const { page } = bench;
    for (const [, file] of LIST) await bringIn(page, file);
    await page.evaluate(() => (location.hash = '#/case'));
    await page.getByRole('link', { name: /K-117/ }).first().click();
    await page.locator('bench-there-now').waitFor();
    await tabTo(page, /^Notes and trials$/);
    await page.keyboard.press('Enter');
    await page.locator('bench-notes').waitFor();
    await tabTo(page, /^The reed/);
    await page.keyboard.press('Enter');
    await tabTo(page, /^Mark as favourite$/);
    await page.keyboard.press('Enter');
    await page.getByText('Favourite, as of pass 0').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await page.evaluate(() => (location.hash = '#/case'));
    await page.getByRole('link', { name: /M-142/ }).first().click();
    // The keys mean the reed that the address names: press them when it does.
    await page.getByRole('heading', { level: 1, name: 'M-142' }).waitFor();
    await page.keyboard.press('4');
    await page.getByText(/Thicker than K.117/).waitFor();
    await page.keyboard.press('5');
    await page.getByText(/Blend, both blades/).waitFor();
  });

  it('takes readings typed into the sheet as fast as they come, and undoes them one by one', async () => {
    const { page } = bench;
    await page.evaluate(() => (location.hash = '#/case'));
    await page.getByRole('button', { name: 'New reed' }).click();
    await page.getByLabel('Label').fill('T-000');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByRole('link', { name: 'Type readings' }).last().click();
    const cell = (place: string) => page.getByLabel(`A, 0.5 mm, ${place}`, { exact: true });
    await cell('left edge').focus();
    const typed = [6, 9, 10, 9, 7, 8, 12, 14, 13, 9, 11, 16, 18, 17, 12];
    for (const digits of typed) {
      await page.keyboard.type(String(digits));
      await page.keyboard.press('Enter');
    }
    await page.getByText(`Pass 0, ${typed.length} readings`).waitFor();
    await page.getByText(/^Least sure: A, /).waitFor();
    expect(
      page.workers().some((worker) => worker.url().includes('fit-worker')),
      'fitted beside the page',
    ).toBe(true);
    expect(await axeFaults(page)).toEqual([]);
    for (const left of [typed.length - 1, typed.length - 2]) {
      await page.keyboard.press('Control+z');
      await page.getByText(`Pass 0, ${left} readings`).waitFor();
    }
    expect(await cell('left edge').inputValue()).toBe('6');
    await page.reload();
    await page.getByText(`Pass 0, ${typed.length - 2} readings`).waitFor();
  });

  it('gives the whole library as a file that brings back the same library elsewhere', async () => {
    const { page } = bench;
    await page.evaluate(() => (location.hash = '#/setup'));
    const copy = async (from: Page) => {
      const download = from.waitForEvent('download');
      await from.getByRole('button', { name: 'Keep a copy of the library' }).click();
      return (await download).path();
    };
    const file = await copy(page);
    const elsewhere = await openBench();
    await elsewhere.page.goto(`${elsewhere.served.url}#/bring-in`);
    await elsewhere.page.locator('input[type=file]').setInputFiles({
      name: 'hundredths-library.json',
      mimeType: 'application/json',
      buffer: readFileSync(file),
    });
    await elsewhere.page.getByRole('button', { name: 'Keep these' }).click();
    await elsewhere.page.getByText('Everything of the file is in the library now.').waitFor();
    await elsewhere.page.evaluate(() => (location.hash = '#/setup'));
    const again = await copy(elsewhere.page);
    expect(readFileSync(again, 'utf8')).toBe(readFileSync(file, 'utf8'));
    expect(elsewhere.problems).toEqual([]);
    await elsewhere.close();
  });

  it('shows a change made in another window at once', async () => {
    const { page } = bench;
    const other = await bench.openAnother();
    await other.page.getByRole('button', { name: 'New reed' }).click();
    await other.page.getByLabel('Label').fill('T-001');
    await other.page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.evaluate(() => (location.hash = '#/case'));
    await page.getByText('T-001').waitFor();
    await other.page.close();
  });

  it.each([
    ['case', 'bench-case .slots'],
    ['bring-in', 'bench-bring-in h1'],
    ['grids', 'main table'],
    ['practice', 'bench-practice h1'],
  ])('has no fault that axe finds in %s', async (place, ready) => {
    const { page } = bench;
    await page.evaluate((at) => (location.hash = `#/${at}`), place);
    await page.locator(ready).first().waitFor();
    expect(await axeFaults(page)).toEqual([]);
  });

  it('said nothing in the console, and asked no other origin for anything', () => {
    expect(bench.problems).toEqual([]);
    expect(
      bench.requests.filter((url) => !url.startsWith(bench.served.url) && !url.startsWith('blob:')),
    ).toEqual([]);
  });
});
