import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bringIn, press, tabTo } from './keyboard.ts';
import { openBench, type Bench } from './launch.ts';

const SAMPLES = ['tests/samples/scenario/k-117-sheet.csv', 'tests/samples/scenario/m-142.csv'];

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
});
afterAll(() => bench.close());

describe('from a favourite to the next strokes, by the keyboard alone', () => {
  it('brings in two reeds and marks the first as a favourite', async () => {
    const { page } = bench;
    await bringIn(page, SAMPLES[0]!);
    await press(page, /^Notes and trials$/);
    await page.locator('bench-notes').waitFor();
    await press(page, /^The reed/);
    await press(page, /^Mark as favourite$/);
    await page.getByText('Favourite, as of pass 0').first().waitFor();
    await bringIn(page, SAMPLES[1]!);
    expect(await page.locator('h1').textContent()).toBe('M-142');
  });

  it('sets the second beside it', async () => {
    const { page } = bench;
    await page.keyboard.press('4');
    await page.locator('bench-beside').getByText('Thicker than K').first().waitFor();
    await press(page, /^Shape only$/);
    await page.getByText('what is shown is what differs in shape').waitFor();
  });

  it('plans the blend and keeps the plan', async () => {
    const { page } = bench;
    await page.keyboard.press('5');
    await page.getByText('Blend, both blades').waitFor();
    await tabTo(page, /^Clip, mm$/);
    await page.keyboard.press('ArrowRight');
    await page.getByText('Clip 0.10').first().waitFor();
    await page.keyboard.press('ArrowLeft');
    await press(page, /^Take up this plan$/, 'Shift+Tab');
    await page.getByText('Kept. Scrape, then').waitFor();
  });

  it('types a pass and shows what was meant beside what was done', async () => {
    const { page } = bench;
    await press(page, /^Type readings$/, 'Shift+Tab');
    await page.locator('bench-reed-readings').waitFor();
    await press(page, /^New pass$/);
    await page.getByText('Pass 4, 0 readings').waitFor();
    await tabTo(page, /^A, .*left edge/);
    const rows = [7, 9, 11, 8, 6, 9, 11, 13, 11, 7, 12, 15, 17, 14, 10, 14, 19, 22, 18, 13];
    for (const reading of [...rows, 17, 24, 31, 24, 16, 22, 32, 38, 32, 21]) {
      await page.keyboard.type(String(reading));
      await page.keyboard.press('Enter');
    }
    await page.getByText('Pass 4, 30 readings').waitFor();
    await press(page, /^Next$/, 'Shift+Tab');
    await page.getByRole('heading', { name: 'Meant and done' }).waitFor();
    expect(bench.problems).toEqual([]);
  });
});
