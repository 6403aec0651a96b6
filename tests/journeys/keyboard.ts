import type { Page } from 'playwright-core';

/** Forwards, or back to what was passed. */
type Way = 'Tab' | 'Shift+Tab';

/** Tabs until what has focus has this name; fails after many steps. */
export async function tabTo(page: Page, name: RegExp, way: Way = 'Tab'): Promise<void> {
  for (let step = 0; step < 160; step++) {
    await page.keyboard.press(way);
    const focused = await page.evaluate(() => {
      let element = document.activeElement;
      while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
      const label =
        element instanceof HTMLInputElement ? element.labels?.[0]?.textContent : element?.textContent;
      return (element?.getAttribute('aria-label') ?? label ?? '').replace(/\s+/g, ' ').trim();
    });
    if (name.test(focused)) return;
  }
  throw new Error(`nothing named ${name} can be reached with Tab`);
}

/** Tabs to what has this name, and presses Enter. */
export async function press(page: Page, name: RegExp, way: Way = 'Tab'): Promise<void> {
  await tabTo(page, name, way);
  await page.keyboard.press('Enter');
}

/** Brings a file in with the keyboard alone. */
export async function bringIn(page: Page, file: string): Promise<void> {
  await page.locator('bench-top-bar').waitFor();
  await press(page, /^Bring in$/);
  await page.locator('bench-bring-in').waitFor();
  const chooser = page.waitForEvent('filechooser');
  await press(page, /CSV files/);
  await (await chooser).setFiles(file);
  await page.getByText('Nothing is kept yet.').waitFor();
  await page.locator('bench-bring-in button.main:enabled').waitFor();
  await press(page, /^Keep these$/);
  await page.getByRole('link', { name: 'To the bench' }).waitFor();
  await page.keyboard.press('Enter');
  await page.locator('bench-desk').waitFor();
}
