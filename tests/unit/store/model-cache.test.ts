import { describe, expect, it, vi } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Reed } from '../../../shared/reed.ts';
import type { FitThread } from '../../../components/store/fit-thread.ts';
import { makeReadingsCache } from '../../../components/store/readings-cache.ts';
import { makeModelCache, type StyleNow } from '../../../components/store/model-cache.ts';
import { fitAnswers } from '../../../src/answers/concurrent/fit-answers.ts';
import { benchReed } from '../../../src/answers/fitted-reed.ts';
import { reedFigures } from '../../../src/answers/record/reed-figures.ts';
import { drawnZone } from '../../../src/blade/edit-zone.ts';
import { floorAt } from '../../../src/blade/floors.ts';
import { LONG_SCRAPE } from '../../../src/blade/starting-styles.ts';
import { withZoneFloor } from '../../../src/blade/zone-floor.ts';
import { leftOpen, liveFigures, liveReed } from '../../../src/answers/live-reed.ts';
import { pointFunctional, estimate } from '../../../src/figures/functional.ts';
import type { ReedPosterior } from '../../../src/surface/reed-posterior.ts';
import { scenarioReed } from '../../scenario-reed.ts';

const whole = scenarioReed('M-142');
const reed: Reed = { ...whole.reed, id: 'reed' };
const passes = whole.passes.slice(0, 2).map((pass): Pass => ({ ...pass, id: `pass ${pass.index}` }));

/** A thread whose wishes and answers go through the copying that lies between page and worker. */
function copying() {
  const answer = fitAnswers();
  const ask = vi.fn<FitThread['ask']>(async (wish) => structuredClone(await answer(structuredClone(wish))));
  return { ask, close: () => undefined };
}

/** A thread that never answers, but takes note of what was given up. */
function waiting() {
  const given: string[] = [];
  const ask = vi.fn<FitThread['ask']>(
    ({ key }, signal) =>
      new Promise((_, reject) => {
        signal?.addEventListener('abort', () => {
          given.push(key);
          reject(signal.reason as Error);
        });
      }),
  );
  return { thread: { ask, close: () => undefined }, given };
}
/** All numbers of the surfaces, bit by bit. */
function bitsOf({ blades, sharedMean, sharedCovariance }: ReedPosterior): Buffer {
  const arrays = Object.values(blades).flatMap((blade) => Object.values(blade) as Float64Array[]);
  return Buffer.concat([...arrays, sharedMean, sharedCovariance].map(({ buffer }) => Buffer.from(buffer)));
}
const rejected = (promise: Promise<unknown>) => promise.catch((error: unknown) => error);

/** Readings are asked for before a fit is. */
const soon = () => new Promise((resolve) => setTimeout(resolve));

describe('fitted reeds', () => {
  it('have the same bits as those fitted on the spot', async () => {
    const cache = makeModelCache(
      () => [],
      copying(),
      makeReadingsCache(() => Promise.resolve([])),
    );
    const benched = await cache.bench(reed, passes);
    const here = benchReed(reed, passes);
    expect(bitsOf(benched.model!).equals(bitsOf(here.model!))).toBe(true);
    const place = { blade: 'A', pass: 1, fromTipMm: 4, across: -0.4, derivative: 'along' } as const;
    expect(estimate(benched.model!, pointFunctional(benched.model!, place))).toEqual(
      estimate(here.model!, pointFunctional(here.model!, place)),
    );
    expect(cache.peek(reed, passes)).toBe(benched);
  });

  it('show while a pass is typed what one on the spot would show, from one fit', async () => {
    const thread = copying();
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    const { index } = passes.at(-1)!;
    const benched = await cache.bench(reed, passes);
    const rest = await cache.atRest(benched, index, new AbortController().signal);
    const here = liveReed(benchReed(reed, passes), index)!;
    expect(liveFigures(rest.live!)).toEqual(liveFigures(here));
    expect(rest.open).toEqual(leftOpen(here));
    expect(await cache.atRest(benched, 99, new AbortController().signal)).toEqual({});
    const wanted = thread.ask.mock.calls.map(([wish]) => wish.want);
    expect(wanted).toEqual(['surfaces', 'live', 'live']);
  });

  it('have the zones and floors that the maker has drawn since, in every figure that is made of them', async () => {
    let now: StyleNow | undefined;
    const cache = makeModelCache(
      () => [],
      copying(),
      makeReadingsCache(() => Promise.resolve([])),
      () => now,
    );
    const zoneNames = async () => {
      const benched = await cache.bench(reed, passes);
      const figures = reedFigures({ benched, pass: 1 });
      return (['zones', 'balance'] as const).map((name) => figures.table(name).rows.map((row) => row.name));
    };
    const before = await zoneNames();
    for (const names of before) expect(names).not.toContain('shoulder');
    const drawn = { from: { fromTipMm: 16, across: -0.3 }, to: { fromTipMm: 18, across: 0.3 } };
    const zones = [...LONG_SCRAPE.zones, drawnZone('Shoulder', [], drawn)];
    const floors = withZoneFloor(LONG_SCRAPE.floors, zones.at(-1)!, 0.5);
    now = { key: 'drawn', style: { ...LONG_SCRAPE, zones, floors } };
    for (const names of await zoneNames()) expect(names).toContain('shoulder');
    const { assembled } = await cache.bench(reed, passes);
    expect(floorAt(assembled.style.floors, 17, 0)).toBeCloseTo(0.5, 9);
    now = undefined;
    expect(await zoneNames()).toEqual(before);
  });

  it('are fitted once for all who ask, and given up when the last of them gives up', async () => {
    const { thread, given } = waiting();
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    const [one, two] = [new AbortController(), new AbortController()];
    const both = [one, two].map(({ signal }) => rejected(cache.bench(reed, passes, signal)));
    await soon();
    expect(thread.ask).toHaveBeenCalledTimes(1);
    one.abort();
    expect(given).toEqual([]);
    two.abort();
    expect(given).toHaveLength(1);
    await Promise.all(both);
    void rejected(cache.bench(reed, passes, new AbortController().signal));
    await soon();
    expect(thread.ask).toHaveBeenCalledTimes(2);
  });

  it('are never given up while someone waits for ever', () => {
    const { thread, given } = waiting();
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    const hand = new AbortController();
    void cache.bench(reed, passes);
    void cache.bench(reed, passes, hand.signal);
    hand.abort();
    expect(given).toEqual([]);
  });

  it('are fitted anew when a document changes', async () => {
    const thread = copying();
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    await cache.bench(reed, passes);
    await cache.bench(reed, passes);
    await cache.bench({ ...reed, versions: { here: 2 } }, passes);
    expect(thread.ask).toHaveBeenCalledTimes(2);
  });
});

describe('a reed with a pass in doubt', () => {
  it('is the same for all who ask once its faults are known: fitted by the noise judged without that pass', async () => {
    const doubtful = scenarioReed('m-142-swapped');
    const own: Reed = { ...doubtful.reed, id: 'doubtful' };
    const read = doubtful.passes.map((pass): Pass => ({ ...pass, id: `pass ${pass.index}` }));
    const cache = makeModelCache(
      () => [],
      copying(),
      makeReadingsCache(() => Promise.resolve([])),
    );
    const before = await cache.bench(own, read);
    const settled = await cache.settled(own, read);
    expect(settled.model!.noiseMm.A).not.toBe(before.model!.noiseMm.A);
    expect(await cache.bench(own, read)).toBe(settled);
    expect(cache.peek(own, read)).toBe(settled);
  });

  it('is looked through for faults once, whoever asks, and whatever its noise is judged by', async () => {
    const thread = copying();
    const single = passes.slice(0, 1);
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    const other: Reed = { ...reed, id: 'other' };
    await cache.settled(reed, single);
    await cache.settled(other, single);
    await cache.settled(reed, single);
    await cache.faults(other, single);
    expect(thread.ask.mock.calls.map(([wish]) => wish.want)).toEqual([
      ...['surfaces', 'faults'],
      ...['surfaces', 'faults'],
    ]);
  });
});
