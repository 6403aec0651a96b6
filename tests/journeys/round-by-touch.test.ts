import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFaults } from './axe-faults.ts';
import { openBench, type Bench } from './launch.ts';
import { misfits } from './misfits.ts';

/** An invented first pass, in hundredths, by place. */
const COUNTS = new Map(
  readFileSync('tests/samples/passes/sample-plain.csv', 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('sample-plain,0,'))
    .map((line) => line.trim().split(','))
    .map((cells) => [
      `${cells[4]} ${Number(cells[5])} ${Number(cells[6])}`,
      Math.round(Number(cells[7]) * 100),
    ]),
);
/** Slips of a tired hand, by place: digits turned, or a tenth misread on the dial. */
const SLIPS: Readonly<Record<string, (count: number) => number>> = {
  'A 3 0': (count) => count + 10,
  'A 10 0.4': (count) => Number([...String(count)].reverse().join('')),
  'A 18 -0.8': (count) => count - 10,
  'B 6 0': (count) => Number([...String(count)].reverse().join('')),
  'B 14 0.8': (count) => count + 10,
};
const ACROSS = ['left edge', 'left', 'middle', 'right', 'right edge'];

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
});
afterAll(() => bench.close());

const onRound = (page: Page) => page.locator('bench-round');
const digits = (count: number) => String(count).padStart(2, '0');

/** What the screen says, all of it at one look. */
async function look(page: Page) {
  const texts = await onRound(page)
    .locator('.where, .across, .done, .question h1')
    .evaluateAll((found) =>
      found
        .filter((one) => one instanceof HTMLElement)
        .map((one) => [`${one.className} ${one.localName}`, one.innerText] as const),
    );
  const said = (name: string) =>
    (texts.find(([of]) => of.split(' ').includes(name))?.[1] ?? '').replace(/\s+/g, ' ').trim();
  const across = ACROSS.indexOf(said('across'));
  const [, blade, mm] = /^([AB]) ([\d.]+)/.exec(said('where')) ?? [];
  return {
    place: `${blade} ${Number(mm)} ${Number((-0.8 + 0.4 * across).toFixed(1)) + 0}`,
    done: Number(/(\d+) of 140/.exec(said('done'))?.[1] ?? NaN),
    question: said('h1'),
  };
}

describe('a round on a telephone, by touch alone', () => {
  let taps = 0;
  const told: string[] = [];
  const doubted: string[] = [];
  let keys: ReadonlyMap<string, readonly [x: number, y: number]> = new Map();

  async function tap(words: string | RegExp) {
    taps += 1;
    await onRound(bench.page).getByRole('button', { name: words, exact: true }).tap();
  }
  /** The keys lie where they lay: a thumb does not look for them. */
  async function type(count: number) {
    for (const digit of digits(count)) {
      taps += 1;
      await bench.page.touchscreen.tap(...keys.get(digit)!);
    }
  }
  /** A tap is felt by the page a moment after it was made: what it says once so many are read, or asks. */
  async function settled(n: number, from: string) {
    for (;;) {
      const seen = await look(bench.page);
      if ((seen.done === n && seen.place !== from) || /^140 read/.test(seen.question)) return seen;
    }
  }
  /** The place that is asked for next, once it is; or the turn, or the end. */
  async function next() {
    for (;;) {
      const seen = await look(bench.page);
      if (seen.question === '' ? COUNTS.has(seen.place) : /^(Turn|140 read)/.test(seen.question)) return seen;
    }
  }

  /** Says what a reading that is asked about should be; where that is not offered, it is read again. */
  async function answer(words: string, count: number) {
    const offered = onRound(bench.page).getByRole('button', { name: words, exact: true });
    if ((await offered.count()) > 0) {
      await tap(words);
      return answered();
    }
    await tap('Read again');
    await onRound(bench.page).locator('.where').waitFor();
    await type(count);
    await question().waitFor({ state: 'hidden' });
  }
  const question = () => onRound(bench.page).locator('.question h1');
  const answered = () => question().filter({ hasText: 'Here' }).waitFor({ state: 'hidden' });

  it('makes a reed and begins its round', async () => {
    const { page } = bench;
    await page
      .getByRole('button', { name: 'More' })
      .or(page.getByText('More', { exact: true }))
      .first()
      .tap();
    await page.getByRole('link', { name: 'Setup' }).tap();
    await page.getByText('A reading in a round is taken').click();
    await page.getByLabel('A reading in a round is taken').selectOption({ index: 1 });
    await page.getByRole('link', { name: 'Case', exact: true }).tap();
    await page.getByRole('button', { name: 'New reed' }).tap();
    await page.getByLabel('Label').fill('T-1');
    await page.getByRole('button', { name: 'Keep', exact: true }).tap();
    await page.getByRole('link', { name: 'Start a round' }).first().tap();
    await page.getByRole('button', { name: /^Full map/ }).tap();
    await onRound(page).locator('.pad').waitFor();
    const pad = await onRound(page)
      .locator('.pad button')
      .evaluateAll((found) =>
        found.map((one) => {
          const { left, top, width, height } = one.getBoundingClientRect();
          return { words: one.textContent?.trim() ?? '', x: left + width / 2, y: top + height / 2, top };
        }),
      );
    expect(Math.min(...pad.map(({ top }) => top)), 'one thumb reaches every key').toBeGreaterThan(844 / 3);
    keys = new Map(pad.map(({ words, x, y }) => [words, [x, y] as const]));
    await type(50);
    await settled(1, 'A 0.5 -0.8');
    await tap('Back one');
    expect((await look(page)).place, 'a correction goes back').toBe('A 0.5 -0.8');
    // The sentence after a key comes and goes.
    await expect.poll(() => page.evaluate(misfits)).toEqual([]);
    expect(await axeFaults(page)).toEqual([]);
  });

  it('reads both blades with two taps a place; asks for the turn, and about each slip', async () => {
    const { page } = bench;
    let { place } = await look(page);
    for (let n = 0; n < COUNTS.size; n++) {
      if (n === COUNTS.size / 2) {
        expect(await question().innerText()).toBe('Turn the reed over to B. Is the dot on your right?');
        expect(await axeFaults(page)).toEqual([]);
        await tap('Yes, on my right');
        ({ place } = await next());
      }
      const here = place;
      expect(COUNTS.has(here), here).toBe(true);
      const count = COUNTS.get(here)!;
      const slip = SLIPS[here];
      await type(slip ? slip(count) : count);
      const seen = await settled(n + 1, here);
      ({ place } = seen);
      if (seen.question === '' || /^(Turn|140 read)/.test(seen.question)) continue;
      (slip ? told : doubted).push(here);
      await answer(slip ? `It is ${count}` : `${count}, as read`, count);
      ({ place } = await next());
    }
    expect(doubted.length, 'sound readings asked about').toBeLessThanOrEqual(2);
    expect(told.length, 'slips asked about at once').toBeGreaterThanOrEqual(2);
    expect(taps / COUNTS.size, 'taps a place').toBeLessThan(2.1);
  });

  it('tells by the end each slip that it could not tell at once', async () => {
    const { page } = bench;
    await question().filter({ hasText: '140 read' }).waitFor();
    for (let left = Object.keys(SLIPS).length - told.length; left > 0; left--) {
      await tap('Read the odd one by one');
      const here = (await look(page)).place;
      expect(Object.keys(SLIPS)).toContain(here);
      told.push(here);
      await type(COUNTS.get(here)!);
      await question().filter({ hasText: '140 read' }).waitFor();
    }
    expect(told.sort()).toEqual(Object.keys(SLIPS).sort());
    await question().filter({ hasText: '140 read, none odd. Zero again?' }).waitFor();
    await expect.poll(() => page.evaluate(misfits)).toEqual([]);
  });

  it('takes the zero, and keeps the pass', async () => {
    const { page } = bench;
    await tap('Zero again');
    await tap('0');
    await tap('Take 0');
    expect(await question().innerText()).toBe('140 read, none odd. Zero: 0.');
    await tap('Keep these');
    await page.locator('bench-there-now').waitFor();
  });

  it('answers with what was read: every place as it should be', async () => {
    const { page } = bench;
    await page
      .locator('bench-blade-map[data-blade="B"] [role="gridcell"]')
      .first()
      .waitFor({ state: 'attached' });
    const readings = await page.evaluate(async () => {
      const store = document.querySelector('bench-app') as unknown as {
        store: { reeds: { id: string }[]; loadPasses(id: string): Promise<{ readings: Reading[] }[]> };
      };
      interface Reading {
        blade: string;
        fromTipMm: number;
        across: number;
        thicknessMm: number;
      }
      const [pass] = await store.store.loadPasses(store.store.reeds[0]!.id);
      return pass!.readings;
    });
    const counts = new Map(
      readings.map((one) => [
        `${one.blade} ${one.fromTipMm} ${one.across}`,
        Math.round(one.thicknessMm * 100),
      ]),
    );
    expect(counts).toEqual(COUNTS);
    expect(bench.problems).toEqual([]);
  });
});
