import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawings, NOT_KEPT } from './drawings.ts';
import { everyPlace, unfolded, type Place } from './every-place.ts';
import { choose } from './choose.ts';
import { firstScreen } from './first-screen.ts';
import { foreignNumbers } from './foreign-numbers.ts';
import { openBench, type Bench } from './launch.ts';
import { misfits } from './misfits.ts';
import { pageWords } from './page-words.ts';

let bench: Bench;
let places: readonly Place[];
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
  places = await everyPlace(bench.page);
}, 120_000);
afterAll(() => bench.close());

/** The width at which the maker writes with decimal commas, in thousandths of an inch: the last one. */
const ABROAD = 1440;

describe.each([
  [390, 844],
  [1024, 768],
  [1440, 900],
])('every place, %d wide', (width, height) => {
  const misfitting: string[] = [];
  const foreign: string[] = [];
  const below: string[] = [];
  const pictures: { name: string; place: string; saved: boolean }[] = [];
  beforeAll(async () => {
    const { page } = bench;
    await page.setViewportSize({ width, height });
    if (width === ABROAD)
      await choose(page, { 'Decimal sign': 'comma: 0,46', 'Unit of thickness': 'thousandths of an inch' });
    for (const place of places) {
      if (width === 1440) below.push(...(await firstScreen(page, place)));
      await unfolded(page, place);
      for (const fault of await page.evaluate(misfits)) misfitting.push(`${place.name}: ${fault}`);
      if (width === ABROAD)
        foreign.push(...foreignNumbers(await pageWords(page)).map((words) => `${place.name}: ${words}`));
      for (const drawing of await page.evaluate(drawings, NOT_KEPT))
        pictures.push({ ...drawing, place: place.name });
    }
  }, 300_000);

  it('keeps within the page, with no text cut or under another and every target large enough', () => {
    expect(misfitting).toEqual([]);
  });

  it.runIf(width === ABROAD)(
    'writes every number with the maker’s decimal sign, every thickness in the unit',
    () => {
      expect(foreign).toEqual([]);
    },
  );

  it.runIf(width === 1440)(
    'answers within the first screen, and asks for eight fields at most at once',
    () => {
      expect(below).toEqual([]);
    },
  );

  it('can save every picture', () => {
    expect(pictures.filter(({ saved }) => !saved)).toEqual([]);
    expect(new Set(pictures.map(({ name }) => name)).size).toBeGreaterThan(6);
  });
});

it('says nothing in the console', () => {
  expect(bench.problems).toEqual([]);
});
