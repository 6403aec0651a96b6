import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFaults } from './axe-faults.ts';
import { openBench, type Bench } from './launch.ts';
import { onPaper } from './on-paper.ts';

/** Runs in the page: whether the body has a frame, and its figures a ground, where the system chooses the colours. */
function inForcedColours() {
  const within = (root: Document | ShadowRoot, selector: string): Element[] => [
    ...root.querySelectorAll(selector),
    ...[...root.querySelectorAll('*')].flatMap(({ shadowRoot }) =>
      shadowRoot ? within(shadowRoot, selector) : [],
    ),
  ];
  const [relief] = within(document, 'bench-relief');
  const inside = relief!.shadowRoot!;
  const words = [...inside.querySelectorAll('.labels span:not([hidden]):not(.dot) i')];
  const colourOf = (element: Element) => getComputedStyle(element).backgroundColor;
  return {
    hasFrame: getComputedStyle(inside.querySelector('.frame')!).borderStyle === 'solid',
    isOnGround:
      words.length > 0 &&
      words.every((word) => colourOf(word) === 'rgb(255, 255, 255)' || colourOf(word) === 'rgb(0, 0, 0)'),
  };
}

const QUESTIONS = [
  ['there', 'bench-there-now'],
  ['taken', 'bench-taken-off'],
  ['even', 'bench-even'],
  ['beside', 'bench-beside'],
  ['next', 'bench-next'],
] as const;

let bench: Bench;
let reedId = '';
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
  const { page } = bench;
  await page.getByRole('button', { name: 'Look at invented reeds' }).click();
  const link = page.getByRole('link', { name: /M-142/ }).first();
  await link.waitFor();
  reedId = (await link.getAttribute('href'))!.split('/')[2]!;
});
afterAll(() => bench.close());

async function ask(page: Page, question: string, element: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#/bench/${reedId}/${question}`);
  await page.locator(element).waitFor();
  // What a small window leaves out comes first in some.
  const seen = page.locator(element).locator('h2, h1, bench-figures-table').filter({ visible: true });
  await seen.first().waitFor();
}

describe('the views of a reed', () => {
  it.each([
    [1440, 900],
    [1024, 768],
  ])('have side 1 in sight on a page of %d by %d', async (width, height) => {
    const { page } = bench;
    await page.setViewportSize({ width, height });
    for (const [question, element] of QUESTIONS.slice(0, 3)) {
      await ask(page, question, element);
      await page.evaluate(() => scrollTo(0, 0));
      for (const bottom of await page
        .locator(`${element} .plate circle.side-1`)
        .evaluateAll((dots) => dots.map((dot) => dot.getBoundingClientRect().bottom)))
        expect(bottom).toBeLessThan(height);
    }
  });

  it('prints one page, on A4 and on Letter', async () => {
    const { page } = bench;
    await page.setViewportSize({ width: 1440, height: 900 });
    await ask(page, 'sheet', 'bench-sheet');
    // The reed itself, drawn when the page has time: it must not make the page longer.
    await page.locator('bench-sheet header img').waitFor();
    await page.getByText(/^\s*Blend, both blades, .* above K.117/).waitFor();
    for (const [paper, widthPt] of [
      ['A4', 595],
      ['Letter', 612],
    ] as const) {
      await page.getByRole('button', { name: paper, exact: true }).click();
      const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
      expect(Math.round(Number(/MediaBox\s*\[0 0 ([\d.]+)/.exec(pdf)![1]))).toBe(widthPt);
    }
    expect(await axeFaults(page)).toEqual([]);
  });

  it('says how sure each place is, and what stands along any line', async () => {
    const { page } = bench;
    await ask(page, 'there', 'bench-there-now');
    await page.getByRole('button', { name: 'How sure', exact: true }).click();
    const station = page.locator('bench-blade-map[data-blade="A"] [role="gridcell"]').first();
    await expect.poll(() => station.getAttribute('aria-label')).toMatch(/\d\.\d hundredths/);
    await page.getByRole('combobox', { name: 'Line' }).selectOption('across');
    await page.getByRole('heading', { name: 'Cut across at 10 mm from the tip' }).waitFor();
    await page.getByRole('combobox', { name: 'Shown' }).selectOption('all passes of B');
    await page.locator('bench-reed-profile').getByText('pass 2', { exact: true }).first().waitFor();
    for (const fold of ['The picture in words', 'The lamp', 'How sure']) {
      await page.locator('summary', { hasText: new RegExp(`^\\s*${fold}\\s*$`) }).click();
    }
    expect(await axeFaults(page)).toEqual([]);
  });

  it('tells a place with its zone and its doubt, and what faces it on the other blade', async () => {
    const { page } = bench;
    await page.locator('.plate bench-blade-map[data-blade="A"] [role="gridcell"][tabindex="0"]').focus();
    for (let k = 0; k < 6; k++) await page.keyboard.press('ArrowDown');
    const words = page.locator('.plate bench-blade-pair p.probe');
    await expect
      .poll(() => words.textContent())
      .toMatch(/^\d+\.\d\smm: A.* \d+\.\d\s±\d\.\d; facing it B.* \d+\.\d\s±\d\.\d hundredths$/);
  });

  it('opens the reading of a station for correction, in the pass that read it', async () => {
    const { page } = bench;
    await ask(page, 'there', 'bench-there-now');
    await page.locator('.plate bench-blade-map[data-blade="B"] [role="gridcell"][tabindex="0"]').focus();
    await page.keyboard.press('PageDown');
    await page.keyboard.press('Enter');
    const open = page.locator('bench-reed-readings input:focus');
    await expect.poll(() => open.getAttribute('aria-label')).toMatch(/^B, 20\smm/);
    // Pass 2 read nothing below 14 mm: what stands there is from pass 3.
    await page.getByText(/^Pass 3, \d+ readings/).waitFor();
    await page.goBack();
    await page.locator('bench-there-now bench-figures-table').first().waitFor();
  });

  it('keeps the match to the lamp', async () => {
    const { page } = bench;
    await page.locator('summary', { hasText: 'The lamp' }).click();
    await page.locator('bench-reed-light').scrollIntoViewIfNeeded();
    await page.getByLabel('Match it to your lamp').focus();
    await page.keyboard.press('ArrowRight');
    // Another window shows what the library holds.
    const other = (await bench.openAnother()).page;
    await ask(other, 'there', 'bench-there-now');
    await other.locator('summary', { hasText: 'The lamp' }).click();
    await other.locator('bench-reed-light').scrollIntoViewIfNeeded();
    await expect.poll(() => other.getByLabel('Match it to your lamp').inputValue()).toBe('3.1');
    await other.close();
  });

  it('saves every picture of the bench with its caption, unit and date', async () => {
    const { page } = bench;
    await ask(page, 'there', 'bench-there-now');
    for (const [place, picture] of [
      ['.plate', '<path'],
      ['bench-reed-profile', '<path'],
      ['.opened', '<image'],
    ] as const) {
      const box = page.locator(`${place === '.opened' ? '.plate' : place} bench-picture`).first();
      if (place === '.opened') {
        await page.getByRole('button', { name: 'Opened' }).click();
        await page.locator('bench-reed-relief canvas').waitFor();
      } else await box.locator('summary', { hasText: 'Save the picture' }).click();
      const download = page.waitForEvent('download');
      await box.getByRole('button', { name: 'Save the picture as a drawing, SVG' }).click();
      const text = readFileSync(await (await download).path(), 'utf8');
      expect(text).toContain(picture);
      expect(text).toMatch(/M-142.*\(invented\)/);
      expect(text).toMatch(/>\d{4}-\d\d-\d\d</);
    }
  });

  it('carries what every question prints onto the body of the reed', async () => {
    const { page } = bench;
    // Every pixel is drawn without a graphics card.
    await page.setViewportSize({ width: 1024, height: 600 });
    for (const [question, element] of QUESTIONS) {
      await ask(page, question, element);
      for (const name of ['Opened', 'On the staple'] as const) {
        await page.getByRole('button', { name, exact: true }).click();
        const relief = page.locator('bench-relief-print .picture > bench-relief');
        await relief.locator('canvas').waitFor();
        await expect
          .poll(() =>
            relief.evaluate((one) => (one as HTMLElement & { cost: { frames: number } }).cost.frames),
          )
          .toBeGreaterThan(0);
      }
      await page.emulateMedia({ forcedColors: 'active' });
      expect(await page.evaluate(inForcedColours)).toEqual({ hasFrame: true, isOnGround: true });
      await page.emulateMedia({ forcedColors: null });
      if (question === 'there') expect(await axeFaults(page)).toEqual([]);
      await page.getByRole('button', { name: 'Flat map' }).click();
      await page.locator(`${element} .plate bench-blade-map`).first().waitFor();
    }
    await page.setViewportSize({ width: 1440, height: 900 });
  });

  it('prints the answer, the plate and its table of every question, and nothing that is pressed', async () => {
    const { page } = bench;
    for (const [question, element] of QUESTIONS) {
      await ask(page, question, element);
      await page.emulateMedia({ media: 'print' });
      const { says, pictures, tables, controls } = await page.evaluate(onPaper);
      await page.emulateMedia({ media: 'screen' });
      expect({ question, controls }).toEqual({ question, controls: [] });
      expect(Math.min(says, pictures - 2), question).toBeGreaterThan(0);
      // Next has its step; a table stands there while the clip ruler is moved.
      if (question !== 'next') expect(tables, question).toBeGreaterThan(0);
    }
  });

  it('opens the reading of a station that is clicked or double-clicked under any question', async () => {
    const { page } = bench;
    for (const [question, element] of QUESTIONS) {
      await ask(page, question, element);
      const station = page
        .locator(`${element} .plate bench-blade-map[data-blade="A"] [role="gridcell"]`)
        .first();
      const open = page.locator('bench-reed-readings input:focus');
      // A plate that is drawn anew under the pointer is pressed again; so is one that was left before the second press,
      // which then fell on what was opened.
      const opened = async () => {
        if (!(await station.isVisible())) await ask(page, question, element);
        await (question === 'even' ? station.dblclick() : station.click());
        return open.getAttribute('aria-label', { timeout: 2000 }).catch(() => '');
      };
      await expect.poll(opened, { message: question }).toMatch(/^A, 0.5\smm, left/);
    }
  });

  it('compares any two passes, and shows all of them at a glance', async () => {
    const { page } = bench;
    await ask(page, 'taken', 'bench-taken-off');
    await page.getByRole('combobox', { name: 'From' }).selectOption('pass 0');
    await page.getByText('Taken off between pass 0 and pass 3').waitFor();
    await page.getByRole('button', { name: 'Taken off', exact: true }).click();
    const small = page.locator('bench-small-multiples button');
    await expect.poll(() => small.count()).toBe(3);
    expect(await axeFaults(page)).toEqual([]);
    await small.first().click();
    await page.locator('a[aria-current="step"]', { hasText: 'Pass 1' }).waitFor();
  });

  it.each([
    [1440, 900],
    [1024, 768],
    [700, 900],
  ] as const)(
    'keeps the blades in their place under all five questions at %d by %d',
    async (width, height) => {
      const { page } = bench;
      await page.setViewportSize({ width, height });
      const lain: { top: number; mmPx: number; left: number }[] = [];
      for (const [question, element] of QUESTIONS) {
        await ask(page, question, element);
        await page.evaluate(() => scrollTo(0, 0));
        const ticks = page.locator(`${element} .plate bench-blade-map[data-blade="A"] .scale text`);
        await ticks.first().waitFor();
        // Five millimetres from one figure of the scale to the next; the first stands at the tip.
        const middles = await ticks.evaluateAll((texts) =>
          texts.map((text) => {
            const { top, height: high, left } = text.getBoundingClientRect();
            return [top + high / 2, left] as const;
          }),
        );
        const [[tip, left], , [ten]] = middles as [[number, number], [number, number], [number, number]];
        lain.push({ top: width >= 1024 ? tip : 0, left, mmPx: (ten - tip) / 10 });
        const words = page.locator(`${element} .plate bench-blade-pair .about > *`);
        const isCut = (all: Element[]) => all.some((one) => one.scrollWidth > one.clientWidth + 1);
        expect(await words.evaluateAll(isCut), `${question}: words that end in an ellipsis`).toBe(false);
      }
      for (const one of lain) {
        // Below 980 px the answer stands above the plate, and may have another line.
        expect(one.top).toBeCloseTo(lain[0]!.top, 0);
        expect(one.left).toBeCloseTo(lain[0]!.left, 0);
        expect(one.mmPx).toBeCloseTo(lain[0]!.mmPx, 1);
      }
      if (width < 1440) return;
      expect(Math.abs(lain[0]!.top - 274)).toBeLessThan(2);
      expect(Math.abs(lain[0]!.mmPx - 21.7)).toBeLessThan(0.3);
    },
  );

  it('says nothing in the console', () => {
    expect(bench.problems).toEqual([]);
  });
});
