import type { Page } from 'playwright-core';
import { pageSizes } from '../../scripts/page-size.mjs';
import { openBench } from '../journeys/launch.ts';

const LOADS = 5;
/** From the page down to the map of a blade, through the shadow of each. */
const TO_THE_MAP = ['bench-app', 'bench-desk', 'bench-there-now', 'bench-blade-pair', 'bench-blade-map'];

/** Time from the end of loading to the first picture of a reed with its numbers, ms: the fit of four passes included. */
async function firstPictureMs(page: Page): Promise<number> {
  await page.reload({ waitUntil: 'load' });
  const shown = await page.waitForFunction((path) => {
    let root: ParentNode = document;
    for (const name of path) {
      const found = root.querySelector(name)?.shadowRoot;
      if (!found) return undefined;
      root = found;
    }
    return root.querySelector('[role="gridcell"]') ? performance.now() : undefined;
  }, TO_THE_MAP);
  const at = await shown.jsonValue();
  const loaded = await page.evaluate(
    () => (performance.getEntriesByType('navigation')[0] as PerformanceNavigationTiming).loadEventEnd,
  );
  return (at ?? NaN) - loaded;
}

export default async function run() {
  const bench = await openBench({ viewport: { width: 1440, height: 900 } });
  try {
    const { page } = bench;
    await page.getByRole('button', { name: 'Look at invented reeds' }).click();
    await page.getByRole('link', { name: /M-142/ }).first().click();
    await page.locator('bench-there-now').waitFor();
    const times: number[] = [];
    for (let k = 0; k < LOADS; k++) times.push(await firstPictureMs(page));
    const [median] = [...times].sort((a, b) => a - b).slice(LOADS >> 1);
    return [
      {
        name: 'first picture after load',
        value: median!,
        unit: 'ms',
        limit: 1000,
        note: 'four passes fitted',
      },
      ...pageSizes(),
    ];
  } finally {
    await bench.close();
  }
}
