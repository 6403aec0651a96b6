import type { Theme } from '../theme/palette.ts';
import type { HiddenScene } from '../scene/hidden-scene.ts';
import type { ReliefBlade } from './relief-data.ts';

/** Size of a small body's picture, CSS pixels; it is drawn so many times finer. */
export const SMALL = { width: 190, height: 150, scale: 2 } as const;
/** So many are kept; those that were asked for longest ago go. */
const MOST_KEPT = 60;

const kept = new Map<string, Promise<string | undefined>>();
let last: Promise<unknown> = Promise.resolve();

/** When the page has nothing else to do; engines without that word get a moment. */
const idle = () =>
  new Promise<void>((resolve) => {
    if ('requestIdleCallback' in window) requestIdleCallback(() => resolve(), { timeout: 2000 });
    else setTimeout(resolve, 200);
  });

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
  const done = last.then(idle).then(work);
  last = done.catch(() => undefined);
  return done;
}

async function draw(theme: Theme, blades: () => readonly ReliefBlade[] | undefined) {
  const drawn = blades();
  if (!drawn) return undefined;
  const { HiddenScene: Hidden } = await import('../scene/hidden-scene.ts');
  let hidden: HiddenScene | undefined;
  try {
    hidden = new Hidden(SMALL.width, SMALL.height);
    hidden.show(drawn, 'hundredths', theme);
    return hidden.scene.snapshot(SMALL.scale / devicePixelRatio).toDataURL();
  } catch {
    return undefined;
  } finally {
    hidden?.close();
  }
}
