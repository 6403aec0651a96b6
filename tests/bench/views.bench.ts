import { mean } from 'd3-array';
import { build } from 'esbuild';
import type { Page } from 'playwright-core';
import { launchComposed } from '../journeys/launch.ts';
import { threadMs } from './thread-time.ts';
import type { BenchViews } from './views-page.ts';

declare const benchViews: BenchViews;

const UPDATES = 23;
const FRAMES = 40;
/** The first ones warm the page up. */
const WARM_UP = 3;

const meanMs = (times: readonly number[]) => mean(times.slice(WARM_UP))!;

/** What the page's script holds after its rubbish was taken away, MB. */
async function heapMb(page: Page): Promise<number> {
  const client = await page.context().newCDPSession(page);
  await client.send('HeapProfiler.collectGarbage');
  const { usedSize, backingStorageSize } = (await client.send('Runtime.getHeapUsage')) as {
    usedSize: number;
    backingStorageSize: number;
  };
  return (usedSize + backingStorageSize) / 2 ** 20;
}

/** The pictures alone in one script, as an inline page would have them. */
async function pageScript(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: ['tests/bench/views-page.ts'],
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    tsconfig: 'tsconfig.json',
    write: false,
  });
  return outputFiles[0]!.text;
}

export default async function run() {
  const browser = await launchComposed();
  try {
    const page = await browser.newPage({ viewport: { width: 600, height: 900 } });
    await page.setContent('<!doctype html><title>Pictures</title><body>');
    await page.addScriptTag({ content: await pageScript() });
    const updates = await threadMs(browser, page, () =>
      page.evaluate((count) => benchViews.updateMap(count), UPDATES),
    );
    const before = await heapMb(page);
    const first = await threadMs(browser, page, () => page.evaluate(() => benchViews.showRelief()));
    const held = (await heapMb(page)) - before;
    const turned = await threadMs(browser, page, () =>
      page.evaluate((frames) => benchViews.orbit(frames), FRAMES),
    );
    return [
      {
        name: 'map of a blade, other data',
        value: meanMs(updates.times),
        unit: 'ms',
        limit: 20,
        note: '95 x 41 grid',
      },
      {
        name: 'relief, first picture',
        value: first.times[0]!,
        unit: 'ms',
        limit: 250,
        note: 'everything on: context, shaders, meshes; processor time of the page',
      },
      { name: 'relief, what it holds', value: held, unit: 'MB', limit: 10, note: 'heap and its buffers' },
      {
        name: 'relief, script of a frame while turned',
        value: meanMs(turned.times),
        unit: 'ms',
        limit: 4,
        note: 'both blades with everything on',
      },
      { name: 'relief, draw calls of a frame', value: turned.value, unit: 'calls', limit: 60 },
    ];
  } finally {
    await browser.close();
  }
}
