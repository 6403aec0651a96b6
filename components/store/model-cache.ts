import type { Gauge } from '../../shared/gauge.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Round } from '../../shared/round.ts';
import type { Stamp } from '../../shared/stamp.ts';
import type { FitOrder, PlacesBefore, SurfaceParts } from '../../src/answers/concurrent/fit-request.ts';
import type { OtherReeds } from '../../src/answers/from-library.ts';
import type { StyleTemplate } from '../../src/blade/starting-styles.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import type { LeftOpen, LiveReed } from '../../src/answers/live-reed.ts';
import type { PassFaults } from '../../src/faults/fault.ts';
import type { FitThread } from './fit-thread.ts';
import type { Passes, ReadingsCache } from './readings-cache.ts';

const MOST_KEPT = 24;

/** What puts a worker's numbers together again: fetched with the first fit, not with the page. */
const together = () => import('../../src/answers/concurrent/fit-request.ts');

const versionOf = ({ id, versions }: Stamp) => `${id} ${JSON.stringify(versions)}`;

/** A reed whose pass is being typed, and what its surfaces leave open. */
export interface AtRest {
  readonly live?: LiveReed;
  readonly open?: LeftOpen;
}

/** What was found in a reed's passes. */
interface Found {
  readonly found: readonly PassFaults[];
}

/** Fitted reeds, kept until one of their documents changes. */
export interface ModelCache {
  /** What tells one state of all that a fit depends on from another: documents, gauges, the style, other reeds. */
  readonly keyOf: (reed: Reed, passes: Passes) => string;
  /** The fit, if it is at hand. */
  readonly peek: (reed: Reed, passes: Passes) => FittedReed | undefined;
  /**
   * The fit. Where everyone who asked for it has given it up, it is stopped, and rejects.
   *
   * @param signal Gives it up. Those who give none wait for ever, behind those who do.
   */
  readonly bench: (reed: Reed, passes: Passes, signal?: AbortSignal) => Promise<FittedReed>;
  /** A fitted reed while one of its passes is typed. Rejects when it is given up. */
  readonly atRest: (benched: FittedReed, passIndex: number, signal: AbortSignal) => Promise<AtRest>;
  /** What the readings of each pass show to be wrong. Rejects when it is given up. */
  readonly faults: (reed: Reed, passes: Passes, signal?: AbortSignal) => Promise<Found>;
  /**
   * What is known of a reed's places before its next pass is read, and the short round that was begun of it.
   *
   * @param begun The round, where one is begun: a full one asks only what other reeds tell, and nothing where none do.
   */
  readonly places: (
    reed: Reed,
    passes: Passes,
    about: Round['about'],
    begun?: Pick<Round, 'short'>,
  ) => Promise<PlacesBefore | undefined>;
  /** The fit while its faults are asked, as every figure is shown: the first that is seen stays. Rejects when it is given up. */
  readonly settled: (reed: Reed, passes: Passes, signal?: AbortSignal) => Promise<FittedReed>;
}

interface Fit {
  readonly key: string;
  benched: Promise<FittedReed>;
  readonly stop: AbortController;
  /** How many wait for it. */
  wanted: number;
  done?: FittedReed;
}

/** Other reeds with their readings. */
async function withReadings(
  now: OthersNow | undefined,
  { whole }: Pick<ReadingsCache, 'whole'>,
): Promise<Omit<OtherReeds, 'gauges'> | undefined> {
  if (!now) return undefined;
  const read = now.reeds.map(({ id }) => whole(now.passes.filter(({ reedId }) => reedId === id)));
  return { ...now, passes: (await Promise.all(read)).flat() };
}

/** First the fit, so that the search for faults finds it at hand where it has to be made anew. */
async function settledBy(
  { bench, faults }: Pick<ModelCache, 'bench' | 'faults'>,
  ...asked: Parameters<ModelCache['settled']>
): Promise<FittedReed> {
  await bench(...asked);
  await faults(...asked);
  return bench(...asked);
}

function giveUp(fit: Fit): void {
  fit.wanted -= 1;
  if (fit.wanted > 0 || fit.done) return;
  fit.stop.abort();
}

/** Keeps the last of them. */
function leaveOut(kept: Map<string, unknown>): void {
  for (const old of [...kept.keys()].slice(0, Math.max(0, kept.size - MOST_KEPT))) kept.delete(old);
}

/** A style as the maker has it, and what tells one such state of it from another. */
export interface StyleNow {
  readonly key: string;
  readonly style: StyleTemplate;
}

/** The maker's other reeds as the index has them, and what tells one such state from another. */
export interface OthersNow {
  readonly key: string;
  readonly reeds: readonly Reed[];
  readonly passes: Passes;
}

const ownStyleOf = (now: StyleNow | undefined) => (now ? { style: now.style } : {});

/** What is asked of a worker, and what tells one such order from another. */
function makeOrders(
  gauges: () => readonly Gauge[],
  readings: Pick<ReadingsCache, 'whole'>,
  styleNow: (styleId: string) => StyleNow | undefined,
  othersNow: (reed: Reed, passes: Passes) => OthersNow | undefined,
) {
  const namedBy = (passes: Passes) =>
    gauges().filter(({ id }) => passes.some(({ gaugeId }) => gaugeId === id));
  const keyOf = (reed: Reed, passes: Passes) =>
    [
      ...[reed, ...passes, ...namedBy(passes)].map(versionOf),
      styleNow(reed.styleId)?.key ?? '',
      othersNow(reed, passes)?.key ?? '',
    ].join('; ');

  /** With the readings, which may have to be read first. */
  async function orderOf(reed: Reed, passes: Passes, now = othersNow(reed, passes)): Promise<FitOrder> {
    const key = keyOf(reed, passes);
    const named = { gauges: namedBy(passes), ...ownStyleOf(styleNow(reed.styleId)) };
    const others = await withReadings(now, readings);
    return {
      key,
      reed,
      passes: await readings.whole(passes),
      ...named,
      ...(others && { others: { ...others, gauges: gauges() } }),
    };
  }

  return { keyOf, orderOf };
}

function wishForPlaces(
  order: FitOrder,
  gauges: readonly Gauge[],
  about: Round['about'],
  begun: Pick<Round, 'short'> | undefined,
) {
  const next = { ...about, index: (order.passes.at(-1)?.index ?? -1) + 1 };
  return { ...order, gauges, next, begun, want: 'places' } as const;
}

/**
 * @param gauges Those that passes may name, as they are now.
 * @param othersNow The maker's other reeds, for a reed that was read in few places; undefined where they are not to be asked.
 * @param styleNow A style with the maker's own zones and floors; undefined where it is as it starts.
 */
export function makeModelCache(
  gauges: () => readonly Gauge[],
  thread: FitThread,
  readings: Pick<ReadingsCache, 'whole'>,
  styleNow: (styleId: string) => StyleNow | undefined = () => undefined,
  othersNow: (reed: Reed, passes: Passes) => OthersNow | undefined = () => undefined,
): ModelCache {
  const fits = new Map<string, Fit>();
  const searched = new Map<string, Found & { readonly key: string }>();
  const { keyOf, orderOf } = makeOrders(gauges, readings, styleNow, othersNow);

  function begin(reed: Reed, passes: Passes, isAwaited: boolean): Fit {
    const stop = new AbortController();
    const benched = orderOf(reed, passes).then(async (order) => {
      const asked = thread.ask({ ...order, want: 'surfaces' }, isAwaited ? stop.signal : undefined);
      const [answer, { benchedFrom }] = await Promise.all([asked, together()]);
      return benchedFrom(order, answer);
    });
    const fit: Fit = { key: keyOf(reed, passes), benched, stop, wanted: 0 };
    const { id } = reed;
    fits.delete(id);
    fits.set(id, fit);
    void benched.then(
      (done) => (fit.done ??= done),
      () => fits.get(id) === fit && fits.delete(id),
    );
    leaveOut(fits);
    return fit;
  }

  /** From now on whoever asks for the reed has it so. */
  function settle(key: string, reed: Reed, surfaces: SurfaceParts, found: readonly PassFaults[]): void {
    const fit = fits.get(reed.id);
    if (fit?.key !== key) return;
    fit.benched = Promise.all([fit.benched, together()]).then(
      ([benched, { withSurfaces }]) => (fit.done = { ...withSurfaces(benched, surfaces), found }),
    );
  }

  async function faults(reed: Reed, passes: Passes, signal?: AbortSignal): Promise<Found> {
    const kept = searched.get(reed.id);
    // A first pass has only other reeds to be held against, however full it is.
    const others = othersNow(reed, passes.length === 1 ? [] : passes);
    const key = `${keyOf(reed, passes)}; ${others?.key}`;
    if (kept?.key === key) return kept;
    const order = await orderOf(reed, passes, others);
    const { faults: found = [], settled } = await thread.ask({ ...order, want: 'faults' }, signal);
    const now = { key, found };
    searched.delete(reed.id);
    searched.set(reed.id, now);
    leaveOut(searched);
    if (settled) settle(order.key, reed, settled, found);
    return now;
  }

  const cache: ModelCache = {
    keyOf,
    faults,
    settled: (reed, passes, signal) => settledBy(cache, reed, passes, signal),
    peek(reed, passes) {
      const kept = fits.get(reed.id);
      return kept?.key === keyOf(reed, passes) ? kept.done : undefined;
    },
    bench(reed, passes, signal) {
      const kept = fits.get(reed.id);
      const isKept = kept?.key === keyOf(reed, passes) && !kept.stop.signal.aborted;
      const fit = isKept ? kept : begin(reed, passes, signal !== undefined);
      fit.wanted += 1;
      signal?.addEventListener('abort', () => giveUp(fit), { once: true });
      return fit.benched;
    },
    async places(reed, passes, about, begun) {
      const order = await orderOf(reed, passes);
      if (begun && !begun.short && !order.others) return undefined;
      return (await thread.ask(wishForPlaces(order, gauges(), about, begun))).places;
    },
    async atRest(benched, passIndex, signal) {
      const order = await orderOf(benched.reed, benched.passes);
      const answer = await thread.ask({ ...order, want: 'live', passIndex }, signal);
      const live = (await together()).liveFrom(benched, answer);
      const open = answer.live?.open;
      return { ...(live && { live }), ...(open && { open }) };
    },
  };
  return cache;
}
