import type { Gauge } from '../../shared/gauge.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Stamp } from '../../shared/stamp.ts';
import { benchReed, type BenchedReed } from '../../src/answers/benched-reed.ts';

const MOST_KEPT = 24;

const versionOf = ({ id, versions }: Stamp) => `${id} ${JSON.stringify(versions)}`;

/** Fitted reeds, kept until one of their documents changes. */
export interface ModelCache {
  /** The fit, if it is at hand. */
  readonly peek: (reed: Reed, passes: readonly Pass[]) => BenchedReed | undefined;
  /** The fit, made when the page has nothing more urgent to do. */
  readonly bench: (reed: Reed, passes: readonly Pass[]) => Promise<BenchedReed>;
}

/** @param gauges Those that passes may name, as they are now. */
export function makeModelCache(gauges: () => readonly Gauge[]): ModelCache {
  const fits = new Map<string, { key: string; benched: Promise<BenchedReed>; done?: BenchedReed }>();
  let queue: Promise<unknown> = Promise.resolve();
  const named = (passes: readonly Pass[]) =>
    gauges().filter(({ id }) => passes.some(({ gaugeId }) => gaugeId === id));
  const keyOf = (reed: Reed, passes: readonly Pass[]) =>
    [reed, ...passes, ...named(passes)].map(versionOf).join('; ');

  /** One fit after the other, with room between them for keys and pictures. */
  function later<T>(work: () => T): Promise<T> {
    const result = queue.then(() => new Promise((resolve) => setTimeout(resolve))).then(work);
    queue = result.catch(() => undefined);
    return result;
  }

  return {
    peek(reed, passes) {
      const kept = fits.get(reed.id);
      return kept?.key === keyOf(reed, passes) ? kept.done : undefined;
    },
    bench(reed, passes) {
      const key = keyOf(reed, passes);
      const kept = fits.get(reed.id);
      if (kept?.key === key) return kept.benched;
      const benched = later(() => benchReed(reed, passes, named(passes)));
      fits.delete(reed.id);
      fits.set(reed.id, { key, benched });
      void benched.then(
        (done) => fits.get(reed.id)?.key === key && fits.set(reed.id, { key, benched, done }),
        () => fits.get(reed.id)?.key === key && fits.delete(reed.id),
      );
      for (const id of [...fits.keys()].slice(0, Math.max(0, fits.size - MOST_KEPT))) fits.delete(id);
      return benched;
    },
  };
}
