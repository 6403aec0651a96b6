import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawings, NOT_KEPT } from './drawings.ts';
import { everyPlace, unfolded, type Place } from './every-place.ts';
import { openBench, type Bench } from './launch.ts';
import { misfits } from './misfits.ts';

let bench: Bench;
let places: readonly Place[];
beforeAll(async () => {
  bench = await openBench({ viewport: { width: 1440, height: 900 } });
  places = await everyPlace(bench.page);
}, 120_000);
afterAll(() => bench.close());

describe.each([
  [390, 844],
  [1024, 768],
  [1440, 900],
])('every place, %d wide', (width, height) => {
  const misfitting: string[] = [];
  const pictures: { name: string; place: string; saved: boolean }[] = [];
  beforeAll(async () => {
    const { page } = bench;
    await page.setViewportSize({ width, height });
    for (const place of places) {
      await unfolded(page, place);
      for (const fault of await page.evaluate(misfits)) misfitting.push(`${place.name}: ${fault}`);
      for (const drawing of await page.evaluate(drawings, NOT_KEPT))
        pictures.push({ ...drawing, place: place.name });
    }
  }, 300_000);

  it('keeps within the page, with no text cut or under another and every target large enough', () => {
    expect(misfitting).toEqual([]);
  });

  it('can save every picture', () => {
    expect(pictures.filter(({ saved }) => !saved)).toEqual([]);
    expect(new Set(pictures.map(({ name }) => name)).size).toBeGreaterThan(6);
  });
});

it('says nothing in the console', () => {
  expect(bench.problems).toEqual([]);
});
