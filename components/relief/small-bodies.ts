import type { Theme } from '../theme/palette.ts';
import type { HiddenScene } from '../scene/hidden-scene.ts';
import { spareTime } from '../store/spare-time.ts';
import type { ReliefBlade } from './relief-data.ts';

/** Size of a small body's picture, CSS pixels; it is drawn so many times finer. */
export const SMALL = { width: 190, height: 150, scale: 2 } as const;
/** So many are kept; those that were asked for longest ago go. */
const MOST_KEPT = 60;

const kept = new Map<string, Promise<string | undefined>>();
let last: Promise<unknown> = Promise.resolve();
/** Where bodies are drawn, kept while more of them wait: to begin anew takes longer than to draw one. */
let hidden: HiddenScene | undefined;
let waiting = 0;

/**
 * A reed on its staple as a small picture without figures, seen from where all of them are seen. Drawn one at a time while
 * the page is idle, and kept while it is open.
 *
 * @param key Tells what is drawn: another for other readings.
 * @param blades Makes them when their turn comes; undefined gives no picture.
 * @returns The address of an image; undefined where the browser has no WebGL.
 */
export function smallBody(
  key: string,
  theme: Theme,
  blades: () => readonly ReliefBlade[] | undefined,
): Promise<string | undefined> {
  const name = `${theme} ${key}`;
  const made = kept.get(name) ?? inTurn(() => draw(theme, blades));
  kept.delete(name);
  kept.set(name, made);
  const [oldest] = kept.keys();
  if (kept.size > MOST_KEPT) kept.delete(oldest!);
  return made;
}

function inTurn<T>(work: () => Promise<T>): Promise<T> {
  waiting += 1;
  const done = last.then(spareTime).then(work).finally(leave);
  last = done.catch(() => undefined);
  return done;
}

function leave(): void {
  waiting -= 1;
  if (waiting > 0) return;
  hidden?.close();
  hidden = undefined;
}

async function draw(theme: Theme, blades: () => readonly ReliefBlade[] | undefined) {
  const drawn = blades();
  if (!drawn) return undefined;
  const { HiddenScene: Hidden } = await import('../scene/hidden-scene.ts');
  try {
    hidden ??= new Hidden(SMALL.width, SMALL.height);
    await spareTime();
    hidden.show(drawn, 'hundredths', theme);
    return await addressOf(hidden.scene.snapshot(SMALL.scale / devicePixelRatio));
  } catch {
    return undefined;
  }
}

/** A picture as an address that holds it. The browser packs it beside the page's own thread. */
async function addressOf(canvas: HTMLCanvasElement): Promise<string> {
  const picture = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve));
  const reader = new FileReader();
  const read = new Promise((resolve) => (reader.onload = resolve));
  reader.readAsDataURL(picture!);
  await read;
  return String(reader.result);
}
