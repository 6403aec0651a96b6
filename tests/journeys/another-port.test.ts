import { afterAll, beforeAll, expect, it } from 'vitest';
import { axeFaults } from './axe-faults.ts';
import { bringIn } from './keyboard.ts';
import { borrowBrowser, watchedPage, type Borrowed } from './launch.ts';
import { serve, type Served } from './static-server.ts';

let servers: readonly Served[];
let browser: Borrowed;
beforeAll(async () => {
  [servers, browser] = await Promise.all([Promise.all([serve(), serve()]), borrowBrowser()]);
});
afterAll(async () => {
  await browser.close();
  await Promise.all(servers.map(({ close }) => close()));
});

it('is explained where a library is empty and another one lies at another port, and not elsewhere', async () => {
  const context = await browser.newContext();
  const [first, second] = servers.map(({ url }) => url) as [string, string];
  const one = await watchedPage(context);
  await one.page.goto(first);
  await one.page.getByText('Nothing here yet').waitFor();
  expect(await one.page.locator('.elsewhere').count()).toBe(0);
  await bringIn(one.page, 'tests/samples/passes/sample-plain.csv');

  const other = await watchedPage(context);
  await other.page.goto(second);
  const said = other.page.locator('.elsewhere');
  await said.waitFor();
  expect(await said.textContent()).toContain(
    `This address, localhost:${new URL(second).port}, has a library`,
  );
  expect(await axeFaults(other.page)).toEqual([]);
  await said.getByRole('link', { name: `localhost:${new URL(first).port}` }).click();
  await other.page.locator('.slots').getByText('sample-plain').waitFor();
  expect([...one.problems, ...other.problems]).toEqual([]);
  await context.close();
});
