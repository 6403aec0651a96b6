import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBench, type Bench } from './launch.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
  const { page } = bench;
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  await page.locator('.slots').waitFor();
});
afterAll(() => bench.close());

/** Opens the page as one does at the desk, and counts keys from then on. */
async function reopened(page: Page) {
  await page.evaluate(() => (location.hash = '#/case'));
  await page.reload();
  await page.locator('bench-case').waitFor();
  let keys = 0;
  return {
    count: () => keys,
    press: async (key: string) => {
      keys += 1;
      await page.keyboard.press(key);
    },
  };
}
const ready = (page: Page) =>
  page.waitForFunction(
    () =>
      document
        .querySelector('bench-app')
        ?.shadowRoot?.querySelector('bench-reed-round')
        ?.shadowRoot?.querySelector('bench-round')?.shadowRoot?.activeElement?.tagName === 'INPUT',
  );

describe('a round at the desk', () => {
  it("is at the first reading of last time's reed two keys after the page was opened", async () => {
    const { page } = bench;
    const { press, count } = await reopened(page);
    await press('r');
    await page.locator('bench-round-start').waitFor();
    await page.waitForFunction(() => {
      const start = document
        .querySelector('bench-app')
        ?.shadowRoot?.querySelector('bench-reed-round')
        ?.shadowRoot?.querySelector('bench-round-start');
      return start?.shadowRoot?.activeElement?.textContent?.includes('Full map');
    });
    await press('Enter');
    await ready(page);
    expect(count()).toBeLessThanOrEqual(2);
    expect(await page.locator('.header').textContent()).toMatch(/M-142, pass 4\s*, full map/);
  });

  it('takes 140 readings without a mouse, one key beyond the digits for each', async () => {
    const { page } = bench;
    let keys = 0;
    let digits = 0;
    for (let n = 0; n < 140; n++) {
      const typed = String(10 + (n % 45));
      digits += typed.length;
      for (const key of [...typed, 'Enter']) {
        keys += 1;
        await page.keyboard.press(key);
      }
    }
    expect(keys - digits).toBe(140);
    await page
      .getByText(/140 read, .* odd/)
      .first()
      .waitFor();
  });

  it('waits half done when it is put down, says so, and one key goes on with it', async () => {
    const { page } = bench;
    const { press, count } = await reopened(page);
    await page.getByRole('link', { name: /Go on with M.142/ }).waitFor();
    await press('r');
    await ready(page);
    expect(count()).toBe(1);
    expect(await page.locator('.header').textContent()).toContain('140 of 140');
  });

  it('offers to read three places again, and becomes a pass with a last Enter', async () => {
    const { page } = bench;
    await page.locator('.main-button:enabled').waitFor();
    await page.getByText('Read three places again, to see whether the zero crept?').waitFor();
    await page.keyboard.press('*');
    await page.keyboard.press('Enter');
    await page.locator('bench-there-now').waitFor();
    await page.getByText('Pass 4').first().waitFor();
  });

  it('said nothing in the console', () => {
    expect(bench.problems).toEqual([]);
  });
});
