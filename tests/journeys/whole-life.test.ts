import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { INVENTED_READINGS } from '../../demo/scenario/invented-readings.ts';
import { axeFaults } from './axe-faults.ts';
import { openBench, type Bench } from './launch.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
  ({ page } = bench);
});
afterAll(() => bench.close());

const go = (place: string) => page.evaluate((at) => (location.hash = `#/${at}`), place);
const press = (name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' }).click();

/** Rows of one blade as they come out of a spreadsheet. */
const sheet = (blade: 0 | 1) =>
  INVENTED_READINGS['K-117']![0]!.trim()
    .split('\n')
    .map((row) => row.split('|')[blade + 1]!.trim().replaceAll(' ', '\t'))
    .join('\n');

/** Pages that a printed page takes on A4. */
async function printedPages(): Promise<number> {
  const pdf = await page.pdf({
    format: 'A4',
    margin: { top: '10mm', bottom: '10mm', left: '10mm', right: '10mm' },
  });
  return [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b/g)].length;
}

/** Pastes a block with the cursor on the first station of a blade. */
async function paste(blade: 'A' | 'B', text: string): Promise<void> {
  const cell = page.locator(`bench-reed-readings input[data-cell="${blade} 0 0"]`);
  await cell.focus();
  await cell.evaluate((input, block) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', block);
    const event = new ClipboardEvent('paste', {
      clipboardData,
      bubbles: true,
      composed: true,
      cancelable: true,
    });
    input.dispatchEvent(event);
  }, text);
}

describe('one reed from its lot to its end', () => {
  it('begins as cane', async () => {
    await go('cane');
    await press('New lot');
    await page.getByLabel('Letters that begin the labels').fill('Q');
    await press('Keep');
    await press('New piece');
    await page.locator('bench-piece-panel').waitFor();
  });

  it('is tied on a staple, of that piece', async () => {
    await go('case');
    await press('New reed');
    await page.getByLabel('Label').fill('Q-001');
    await press('Keep');
    await page.getByRole('link', { name: 'Notes and trials' }).click();
    await page.getByRole('button', { name: /^Tied/ }).click();
    const tying = page.locator('bench-tied-form');
    await tying.getByLabel('Lot').selectOption({ label: 'Q' });
    await tying.getByLabel('Piece').selectOption({ index: 1 });
    await tying.getByLabel('Tied on').fill('2026-01-05');
    await tying.getByLabel('Staple, its length, mm').fill('47');
    await tying.getByLabel('Top of the thread').fill('47');
    await page.getByText('the thread ends at the staple').waitFor();
  });

  it('is scraped and read', async () => {
    await page.getByRole('link', { name: 'Type readings' }).click();
    await paste('A', sheet(0));
    await page.locator('strong', { hasText: ', 70 readings' }).waitFor();
    await paste('B', sheet(1));
    await page.locator('strong', { hasText: ', 140 readings' }).waitFor();
    await page.getByRole('link', { name: 'There now' }).click();
    await page.locator('bench-there-now').waitFor();
  });

  it('is tried, and goes into use', async () => {
    await page.getByRole('link', { name: 'Notes and trials' }).click();
    const trial = page.locator('bench-trial-form');
    const step = (group: RegExp, name: string) =>
      trial.getByRole('group', { name: group }).getByRole('radio', { name, exact: true }).check();
    await step(/^Fit for/, 'concert');
    await trial.getByLabel('In your words').fill('everything speaks');
    await press('How it feels');
    await step(/^Response/, '5');
    await step(/^Stability/, '5');
    await step(/^Resistance/, '3');
    await page.locator('bench-earlier').getByText('everything speaks').waitFor();
    await page
      .locator('bench-earlier')
      .getByText(/Response 5, resistance 3, stability 5/)
      .waitFor();
    await page.getByRole('button', { name: /^The reed/ }).click();
    await page.getByLabel('State').selectOption('playing');
  });

  it('is played, and offered for an evening with its reasons', async () => {
    await go('rotation');
    await page.locator('bench-rotation').waitFor();
    await page.locator('summary', { hasText: /^\s*Played\s*$/ }).click();
    for (const minutes of ['90', '120']) {
      await page.getByLabel('Minutes').fill(minutes);
      await press('Keep this playing');
      await expect.poll(() => page.getByLabel('Minutes').inputValue()).toBe('');
    }
    await page.getByText('3.5\u00a0h').first().waitFor();
    await page.getByText('Write down an engagement').click();
    await page.getByLabel('What', { exact: true }).fill('an invented evening');
    await page.getByLabel('Day', { exact: true }).fill('2031-05-01');
    await page.getByLabel('loud and long').check();
    await press('Keep this engagement');
    await page.getByText(/holds its notes/).waitFor();
    await page.getByText('Another reed').click();
    await page.getByLabel('Take').selectOption({ label: 'Q-001' });
    await page.getByText('Nothing can be said of how long reeds last: none has ended').waitFor();
    expect(await axeFaults(page)).toEqual([]);
  });

  it('comes to its end with a cause and a sentence', async () => {
    await page.locator('bench-rotation').getByRole('link', { name: /Q.001/ }).first().click();
    await page.locator('bench-history').waitFor();
    // The forms stand under the pictures, which come when the passes are worked out.
    await page.locator('bench-life-pictures table').waitFor();
    await page.getByText('What it is for, its number, its tags').click();
    await page.getByLabel('Tags').fill('tour');
    await page.locator('bench-history').getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByText(/; tour/).waitFor();
    await page.getByRole('link', { name: 'To the bench' }).click();
    await page.getByRole('link', { name: 'Notes and trials' }).click();
    await page.getByRole('button', { name: /^Retired/ }).click();
    await page.getByRole('radio', { name: 'chipped' }).check();
    await page.getByLabel('One sentence').fill('clip later');
    await press('Retire');
    await page.getByRole('heading', { name: /Retired on .*: chipped/ }).waitFor();
    await page.goBack();
    await page.goBack();
    await page.locator('bench-life-pictures table').waitFor();
    const life = await page.locator('bench-history table.screen tbody tr').allTextContents();
    expect(life.map((row) => /Tied|Read|Scraped|Played|In use|Retired/.exec(row)?.[0])).toEqual([
      'Tied',
      'Read',
      'Played',
      'In use',
      'In use',
      'Retired',
    ]);
    expect(await printedPages()).toBe(1);
    expect(await axeFaults(page)).toEqual([]);
  });

  it('is found again by what was learned from it, and counts among what ended', async () => {
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('/');
    await page.locator('bench-find').waitFor();
    await page.getByRole('searchbox').fill('clip later');
    await page.getByText('1 of 1 reed.').waitFor();
    await page.locator('bench-find').getByRole('cell', { name: 'Q1', exact: true }).waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await go('rotation');
    await page.getByText('only one has ended').waitFor();
    await go('cane');
    await page.getByText(/one reed made/).waitFor();
  });

  it('leaves screens that say honestly what one reed cannot tell', async () => {
    await go('alike');
    await page.getByText('Nothing can be said yet: only one reed has a full map').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await go('lesson');
    await page.getByLabel('The example').selectOption({ label: 'Q-001' });
    await page.locator('bench-lesson-card svg').first().waitFor();
    expect(await printedPages()).toBe(1);
    expect(await axeFaults(page)).toEqual([]);
    expect(bench.problems).toEqual([]);
  });
});
