import { mean } from 'd3-array';
import { build } from 'esbuild';
import { launchComposed } from '../journeys/launch.ts';
import { threadMs } from './thread-time.ts';
import type { BenchViews } from './views-page.ts';

declare const benchViews: BenchViews;

const UPDATES = 23;
const FRAMES = 40;
/** The first ones warm the page up. */
const WARM_UP = 3;

const meanMs = (times: readonly number[]) => mean(times.slice(WARM_UP))!;

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
    const turned = await threadMs(browser, page, () =>
      page.evaluate((frames) => benchViews.orbit(frames), FRAMES),
    );
    const { firstMs, drawCalls } = turned.value;
    return [
      {
        name: 'map of a blade, other data',
        value: meanMs(updates.times),
        unit: 'ms',
        limit: 20,
        note: '95 x 41 grid',
      },
      { name: 'relief, first frame', value: firstMs, unit: 'ms', note: 'context, shaders and meshes' },
      {
        name: 'relief, script of a frame while turned',
        value: meanMs(turned.times),
        unit: 'ms',
        limit: 4,
        note: 'two blades of 120 x 60',
      },
      { name: 'relief, draw calls of a frame', value: drawCalls, unit: 'calls', limit: 40 },
    ];
  } finally {
    await browser.close();
  }
}
