import { build } from 'esbuild';
import { launchComposed } from '../journeys/launch.ts';
import type { BenchLibrary } from './library-page.ts';

declare const benchLibrary: BenchLibrary;

const REEDS = 300;
const TIMES = 5;
const LIMIT_MS = 1000;
/** A page of its own origin, so that it has a database. */
const ADDRESS = 'http://localhost:1/';

async function pageScript(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: ['tests/bench/library-page.ts'],
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
    const page = await browser.newPage();
    await page.route(ADDRESS, (route) =>
      route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Library</title>' }),
    );
    await page.goto(ADDRESS);
    await page.addScriptTag({ content: await pageScript() });
    const { workOutMs, openMs, findMs, answerMs } = await page.evaluate(
      ([count, times]) => benchLibrary.library(count!, times!),
      [REEDS, TIMES],
    );
    const of = `${REEDS} reeds`;
    return [
      { name: 'a library opens', value: openMs, unit: 'ms', limit: LIMIT_MS, note: of },
      { name: 'a library is filtered', value: findMs, unit: 'ms', limit: LIMIT_MS, note: of },
      { name: 'what good reeds share is answered', value: answerMs, unit: 'ms', limit: LIMIT_MS, note: of },
      { name: 'reeds are worked out for the first time, in slices', value: workOutMs, unit: 'ms', note: of },
    ];
  } finally {
    await browser.close();
  }
}
