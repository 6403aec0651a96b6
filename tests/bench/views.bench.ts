import { build } from 'esbuild';
import { launchComposed } from '../journeys/launch.ts';
import type { BenchViews } from './views-page.ts';

declare const benchViews: BenchViews;

const UPDATES = 20;
const FRAMES = 40;

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
    const updateMs = await page.evaluate((updates) => benchViews.mapUpdateMs(updates), UPDATES);
    const turned = await page.evaluate((frames) => benchViews.orbit(frames), FRAMES);
    return [
      { name: 'map of a blade, other data', value: updateMs, unit: 'ms', limit: 20, note: '95 x 41 grid' },
      { name: 'relief, first frame', value: turned.firstMs, unit: 'ms', note: 'context, shaders and meshes' },
      {
        name: 'relief, script of a frame while turned',
        value: turned.scriptMs,
        unit: 'ms',
        limit: 4,
        note: 'two blades of 120 x 60',
      },
      { name: 'relief, draw calls of a frame', value: turned.drawCalls, unit: 'calls', limit: 40 },
    ];
  } finally {
    await browser.close();
  }
}
