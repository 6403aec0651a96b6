import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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
  it('keeps within the page, with no text cut or under another and every target large enough', async () => {
    const { page } = bench;
    await page.setViewportSize({ width, height });
    const found: string[] = [];
    for (const place of places) {
      await unfolded(page, place);
      for (const fault of await page.evaluate(misfits)) found.push(`${place.name}: ${fault}`);
    }
    expect(found).toEqual([]);
  }, 300_000);
});

it('says nothing in the console', () => {
  expect(bench.problems).toEqual([]);
});
