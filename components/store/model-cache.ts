import type { Gauge } from '../../shared/gauge.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Stamp } from '../../shared/stamp.ts';
import { benchedFrom, liveFrom, type FitOrder, type SurfaceParts } from '../../src/answers/apart/fit-wish.ts';
import type { BenchedReed } from '../../src/answers/benched-reed.ts';
import type { LeftOpen, LiveReed } from '../../src/answers/live-reed.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import type { FitThread } from './fit-thread.ts';

const MOST_KEPT = 24;

const versionOf = ({ id, versions }: Stamp) => `${id} ${JSON.stringify(versions)}`;

/** A reed whose pass is being typed, and what its surfaces leave open. */
export interface AtRest {
  readonly live?: LiveReed;
  readonly open?: LeftOpen;
}

/** What was found in a reed's passes, and the surfaces by the noise that is judged without passes in doubt. */
interface Found {
  readonly found: readonly PassFaults[];
  readonly settled?: SurfaceParts;
}

/** Fitted reeds, kept until one of their documents changes. */
export interface ModelCache {
  /** The fit, if it is at hand. */
  readonly peek: (reed: Reed, passes: readonly Pass[]) => BenchedReed | undefined;
  /**
   * The fit. Where everyone who asked for it has given it up, it is stopped, and rejects.
   *
   * @param signal Gives it up. Those who give none wait for ever, behind those who do.
   */
  readonly bench: (reed: Reed, passes: readonly Pass[], signal?: AbortSignal) => Promise<BenchedReed>;
  /** A fitted reed while one of its passes is typed. Rejects when it is given up. */
  readonly atRest: (benched: BenchedReed, passIndex: number, signal: AbortSignal) => Promise<AtRest>;
  /** What the readings of each pass show to be wrong. Rejects when it is given up. */
  readonly faults: (reed: Reed, passes: readonly Pass[], signal: AbortSignal) => Promise<Found>;
}

interface Fit {
  readonly key: string;
  readonly benched: Promise<BenchedReed>;
  readonly stop: AbortController;
  /** How many wait for it. */
  wanted: number;
  done?: BenchedReed;
}

/** @param gauges Those that passes may name, as they are now. */
export function makeModelCache(gauges: () => readonly Gauge[], thread: FitThread): ModelCache {
  const fits = new Map<string, Fit>();
  let lastFound: (Found & { readonly key: string }) | undefined;

  function orderOf(reed: Reed, passes: readonly Pass[]): FitOrder {
    const named = gauges().filter(({ id }) => passes.some(({ gaugeId }) => gaugeId === id));
    return { key: [reed, ...passes, ...named].map(versionOf).join('; '), reed, passes, gauges: named };
  }

  function begin(order: FitOrder, isAwaited: boolean): Fit {
    const stop = new AbortController();
    const benched = thread
      .ask({ ...order, want: 'surfaces' }, isAwaited ? stop.signal : undefined)
      .then((answer) => benchedFrom(order, answer));
    const fit: Fit = { key: order.key, benched, stop, wanted: 0 };
    const { id } = order.reed;
    fits.delete(id);
    fits.set(id, fit);
    void benched.then(
      (done) => (fit.done = done),
      () => fits.get(id) === fit && fits.delete(id),
    );
    for (const old of [...fits.keys()].slice(0, Math.max(0, fits.size - MOST_KEPT))) fits.delete(old);
    return fit;
  }

  function giveUp(fit: Fit): void {
    fit.wanted -= 1;
    if (fit.wanted > 0 || fit.done) return;
    fit.stop.abort();
  }

  return {
    peek(reed, passes) {
      const kept = fits.get(reed.id);
      return kept?.key === orderOf(reed, passes).key ? kept.done : undefined;
    },
    bench(reed, passes, signal) {
      const order = orderOf(reed, passes);
      const kept = fits.get(reed.id);
      const isKept = kept?.key === order.key && !kept.stop.signal.aborted;
      const fit = isKept ? kept : begin(order, signal !== undefined);
      fit.wanted += 1;
      signal?.addEventListener('abort', () => giveUp(fit), { once: true });
      return fit.benched;
    },
    async atRest(benched, passIndex, signal) {
      const order = orderOf(benched.reed, benched.passes);
      const answer = await thread.ask({ ...order, want: 'live', passIndex }, signal);
      const live = liveFrom(benched, answer);
      const open = answer.live?.open;
      return { ...(live && { live }), ...(open && { open }) };
    },
    async faults(reed, passes, signal) {
      const order = orderOf(reed, passes);
      if (lastFound?.key === order.key) return lastFound;
      const { faults: found = [], settled } = await thread.ask({ ...order, want: 'faults' }, signal);
      lastFound = { key: order.key, found, ...(settled && { settled }) };
      return lastFound;
    },
  };
}
