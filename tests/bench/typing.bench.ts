import { build } from 'esbuild';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { launchComposed } from '../journeys/launch.ts';
import type { BenchTyping } from './typing-page.ts';

declare const benchTyping: BenchTyping;

/** An event of the browser's trace; `tts` is the clock of its thread, microseconds. */
interface TraceEvent {
  readonly name: string;
  readonly tts?: number;
}

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

/**
 * Time that the page's thread itself was at work between the two marks of each key, ms: other programs on the machine do
 * not count.
 */
function keyMs(trace: Buffer): number[] {
  const { traceEvents } = JSON.parse(trace.toString()) as { traceEvents: TraceEvent[] };
  const at = (mark: string) =>
    traceEvents.filter(({ name }) => name === mark).map(({ tts = NaN }) => tts / 1000);
  const shown = at('shown');
  return at('key').map((start, i) => shown[i]! - start);
}

/** From a key to updated figures and picture, on a sheet of 2 x 200 stations with one earlier pass. */
export default async function run() {
  const [page, browser] = await Promise.all([served(), launchComposed()]);
  try {
    const tab = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await tab.goto(page.url);
    await browser.startTracing(tab, { categories: ['blink.user_timing'] });
    await tab.evaluate(() => benchTyping.typeAll());
    const times = keyMs(await browser.stopTracing())
      .slice(WARM_UP)
      .sort((a, b) => a - b);
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
