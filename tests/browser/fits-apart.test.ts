import { expect } from 'chai';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { makeFitThread } from '../../components/store/fit-thread.ts';
import { makeReadingsCache } from '../../components/store/readings-cache.ts';
import { makeModelCache } from '../../components/store/model-cache.ts';
import { benchReed } from '../../src/answers/fitted-reed.ts';
import { leftOpen, liveFigures, liveReed } from '../../src/answers/live-reed.ts';
import type { ReedPosterior } from '../../src/surface/reed-posterior.ts';
import { inventedThicknessMm } from '../../src/gauge-lines/invented-blade.ts';
import { roundPlans } from '../../src/round/round-plans.ts';

const WORKER = new URL('../../src/answers/concurrent/fit-worker.ts', import.meta.url);
const startWorker = () => new Worker(WORKER, { type: 'module' });

const reed = { id: 'reed', label: 'T-1', styleId: 'long-scrape' } as Reed;
const passes = [0, 1].map(
  (index) =>
    ({
      id: `pass ${index}`,
      index,
      overallLengthMm: 70,
      threadMm: 46.5,
      remedies: [],
      readings: roundPlans('long')
        .at(-1)!
        .stations.map((station) => ({
          ...station,
          thicknessMm: Number((inventedThicknessMm(station) - 0.01 * index).toFixed(2)),
          repeat: 0,
          flag: 'ok' as const,
        })),
    }) as unknown as Pass,
);

const numbersOf = ({ blades, sharedMean, sharedCovariance }: ReedPosterior) =>
  [
    ...Object.values(blades).flatMap((blade) => Object.values(blade) as Float64Array[]),
    sharedMean,
    sharedCovariance,
  ].flatMap((array) => [...array]);

describe('surfaces fitted in a worker', () => {
  it('have the same bits as on the page, which goes on meanwhile', async () => {
    const thread = makeFitThread(startWorker);
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    let turns = 0;
    const ticking = setInterval(() => (turns += 1));
    const benched = await cache.bench(reed, passes);
    const rest = await cache.atRest(benched, 1, new AbortController().signal);
    clearInterval(ticking);
    expect(turns, 'turns of the page while it was fitted').to.be.greaterThan(5);
    const here = benchReed(reed, passes);
    const [there, now] = [numbersOf(benched.model!), numbersOf(here.model!)];
    expect(there.length).to.equal(now.length);
    expect(there.every((value, i) => Object.is(value, now[i]))).to.equal(true);
    const live = liveReed(here, 1)!;
    expect(liveFigures(rest.live!)).to.deep.equal(liveFigures(live));
    expect(rest.open).to.deep.equal(leftOpen(live));
    thread.close();
  });

  it('can be stopped in the middle, and fitted anew', async () => {
    const workers: Worker[] = [];
    const thread = makeFitThread(() => {
      const worker = startWorker();
      workers.push(worker);
      return worker;
    });
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    const hand = new AbortController();
    const stopped = cache.bench(reed, passes, hand.signal).catch((error: unknown) => error);
    await new Promise((resolve) => setTimeout(resolve, 30));
    hand.abort();
    expect(await stopped)
      .to.be.instanceOf(DOMException)
      .with.property('name', 'AbortError');
    expect((await cache.bench(reed, passes)).model!.passes.length).to.equal(2);
    expect(workers.length).to.equal(2);
    thread.close();
  });

  it('are fitted on the page where no worker can be started', async () => {
    const thread = makeFitThread(() => new Worker('/no-such-worker.js'));
    const cache = makeModelCache(
      () => [],
      thread,
      makeReadingsCache(() => Promise.resolve([])),
    );
    expect((await cache.bench(reed, passes)).model!.passes.length).to.equal(2);
    thread.close();
  });
});
