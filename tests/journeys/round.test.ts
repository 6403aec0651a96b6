import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBench, openFresh, type Bench } from './launch.ts';
import { askedFor, inHand, keepMaker, readingAt } from './maker-round.ts';

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
/** This reading of a short round is taken by touch. */
const TOUCHED = 2;

/** Touches keys on a telephone's screen, and goes back to the desk. */
async function onTelephone(page: Page, work: (touch: (key: Locator) => Promise<void>) => Promise<void>) {
  const desk = page.viewportSize()!;
  const session = await page.context().newCDPSession(page);
  const touchable = (enabled: boolean) => session.send('Emulation.setTouchEmulationEnabled', { enabled });
  await page.setViewportSize({ width: 390, height: 844 });
  await touchable(true);
  await work(async (key) => {
    const { x, y, width, height } = (await key.boundingBox())!;
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
    const touchPoints = [{ x: x + width / 2, y: y + height / 2 }];
    await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints });
    await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  });
  await touchable(false);
  await page.setViewportSize(desk);
}

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
    await inHand(page);
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
    await inHand(page);
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

  it('asks for a sixth of the places where other reeds tell the rest, in under 60 keys with both blades, and says so until they are not asked', async () => {
    const own = await openFresh(bench, { viewport: { width: 1440, height: 900 } });
    const { page, problems } = own;
    const reedId = await keepMaker(page, 8);
    await page.evaluate((id) => (location.hash = `#/round/${id}`), reedId);
    await page.getByText('8 of your reeds tell what to expect.').waitFor();
    await page.getByLabel('to, in hundredths of a mm').selectOption('0.0075');
    await page.getByRole('button', { name: 'Start the short round' }).focus();
    let keys = 0;
    const press = async (key: string) => {
      keys += 1;
      await page.keyboard.press(key);
    };
    await press('Enter');
    await inHand(page);
    const round = page.locator('bench-round');
    expect(await round.innerText(), 'nothing of what is expected before a reading').not.toContain('expected');
    for (let n = 0, place = await askedFor(page); place; n++) {
      const digits = readingAt(place);
      const next = round.locator(`.figure input:not([aria-label="${place.label}"])`);
      if (n === TOUCHED) {
        await onTelephone(page, async (touch) => {
          for (const key of digits)
            await touch(round.locator('.pad').getByRole('button', { name: key, exact: true }));
          await next.waitFor({ state: 'attached' });
          await round.locator('.heard').getByText('was expected').waitFor();
        });
        keys += digits.length;
        await next.focus();
      } else for (const key of digits) await press(key);
      await next.waitFor({ state: 'attached' });
      place = await askedFor(page);
      if (n > 0) continue;
      await round
        .getByText(/^\d+ to \d+ was expected. The zones: ±[\d.]+ on average, ±[\d.]+ before it.$/)
        .waitFor();
    }
    const enough =
      /^Enough is known. The zones: ±([\d.]+) on average, from these readings and 8 of your reeds./;
    const [, doubt] = enough.exec(await round.locator('.enough').innerText()) ?? [];
    expect(Number(doubt), 'no more than was asked, as it is rounded').toBeLessThanOrEqual(0.8);
    await round.locator('.main-button:enabled').focus();
    await press('Enter');
    expect(keys).toBeLessThan(60);
    expect(keys, 'a quarter of the keys of every place, two digits each').toBeLessThan(280 / 4);
    const from = page.locator('bench-there-now').getByText(/From \d+ readings here and 8 of your reeds\./);
    const sure = page.locator('bench-there-now summary', { hasText: 'How sure' });
    await sure.click();
    await from.waitFor();
    await page.evaluate(() => (location.hash = '#/setup'));
    await page.getByText('A reed read in few places is told').click();
    await page.getByLabel('A reed read in few places is told').selectOption('from its own readings alone');
    await page.evaluate((id) => (location.hash = `#/bench/${id}/there`), reedId);
    await sure.click();
    await page.locator('bench-there-now').getByText('One reading is taken to be good to').waitFor();
    await from.waitFor({ state: 'detached' });
    expect(problems).toEqual([]);
    await own.close();
  });

  it('said nothing in the console', () => {
    expect(bench.problems).toEqual([]);
  });
});
