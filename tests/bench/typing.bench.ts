import { build } from 'esbuild';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { launchComposed } from '../journeys/launch.ts';
import { threadMs } from './thread-time.ts';
import type { BenchTyping } from './typing-page.ts';

declare const benchTyping: BenchTyping;

/** Readings before this one warm the page up. */
const WARM_UP = 10;

/** The page from an address of its own: a library needs an origin. */
async function served() {
  const { outputFiles } = await build({
    entryPoints: ['tests/bench/typing-page.ts'],
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    tsconfig: 'tsconfig.json',
    write: false,
  });
  const script = outputFiles[0]!.text;
  const server = createServer(({ url }, response) => {
    const isScript = url === '/page.js';
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(
      isScript ? script : '<!doctype html><title>Typing</title><body><script src="page.js"></script>',
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, close: () => server.close() };
}

/** From a key to updated figures and picture, on a sheet of 2 x 200 stations with one earlier pass. */
export default async function run() {
  const [page, browser] = await Promise.all([served(), launchComposed()]);
  try {
    const tab = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await tab.goto(page.url);
    const typed = await threadMs(browser, tab, () => tab.evaluate(() => benchTyping.typeAll()));
    const times = typed.times.slice(WARM_UP).sort((a, b) => a - b);
    const at = (share: number) => times[Math.floor(share * times.length)]!;
    const note = `${times.length} keys on 2 x 200 stations, smoothing held`;
    return [
      { name: 'key to figures and picture, median', value: at(0.5), unit: 'ms', limit: 8, note },
      { name: 'key to figures and picture, 95th percentile', value: at(0.95), unit: 'ms', limit: 16, note },
    ];
  } finally {
    await browser.close();
    page.close();
  }
}
