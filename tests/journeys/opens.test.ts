import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBench, type Bench } from './launch.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ serviceWorkers: 'allow' });
});
afterAll(() => bench.close());

it('opens the built page without a word in the console and asks no other origin for anything', async () => {
  await bench.page.waitForLoadState('networkidle');
  expect(bench.problems).toEqual([]);
  const foreign = bench.requests.filter((url) => !url.startsWith(bench.served.url));
  expect(foreign).toEqual([]);
});
