import { describe, expect, it } from 'vitest';
import { makeFitThread } from '../../../components/store/fit-thread.ts';
import type { FitRequest, FitResponse } from '../../../src/answers/concurrent/fit-request.ts';
import { fakeWorker, type FakeWorker } from '../../fake-worker.ts';
import { scenarioReed } from '../../scenario-reed.ts';

/** Workers that answer when they are told to. */
function workers() {
  const log: string[] = [];
  const started: FakeWorker<FitRequest>[] = [];
  let pending: { resolve: (answer: FitResponse) => void; reject: (error: Error) => void };
  const start = () => {
    const one = fakeWorker<FitRequest, FitResponse>(({ key }) => {
      log.push(`begins ${key}`);
      return new Promise((resolve, reject) => (pending = { resolve, reject }));
    });
    started.push(one);
    return one.worker;
  };
  /** Ends what is worked at, and lets the next begin. */
  const reply = async (error?: Error) => {
    await new Promise((resolve) => setTimeout(resolve));
    if (error) pending.reject(error);
    else pending.resolve({});
  };
  return { log, started, start, reply };
}
const { reed, passes: all } = scenarioReed('M-142');
const passes = all.slice(0, 1);
const wish = (key: string): FitRequest => ({ key, reed, passes, gauges: [], want: 'surfaces' });
const rejected = (promise: Promise<unknown>) => promise.catch((error: unknown) => error);

describe('fitting beside the page', () => {
  it('does one wish after the other, those that somebody waits for first', async () => {
    const { log, start, reply } = workers();
    const thread = makeFitThread(start);
    const patient = ['a', 'b', 'c'].map((key) => thread.ask(wish(key)));
    const awaited = thread.ask(wish('d'), new AbortController().signal);
    await reply();
    await reply();
    await awaited;
    await reply();
    await reply();
    await Promise.all(patient);
    expect(log).toEqual(['begins a', 'begins d', 'begins b', 'begins c']);
  });

  it('stops what is given up while it is worked at, and goes on with the next in a new worker', async () => {
    const { log, started, start, reply } = workers();
    const thread = makeFitThread(start);
    const given = [new AbortController(), new AbortController()];
    const first = rejected(thread.ask(wish('a'), given[0]!.signal));
    const second = rejected(thread.ask(wish('b'), given[1]!.signal));
    const third = thread.ask(wish('c'));
    given[1]!.abort();
    given[0]!.abort();
    expect(await first).toBe(given[0]!.signal.reason);
    expect(await second).toBe(given[1]!.signal.reason);
    await reply();
    await third;
    expect(log).toEqual(['begins a', 'begins c']);
    expect(started.map(({ isEnded }) => isEnded())).toEqual([true, false]);
    expect(started).toHaveLength(2);
  });

  it('begins nothing that was given up before it was asked', async () => {
    const { log, start } = workers();
    const reason = await rejected(makeFitThread(start).ask(wish('a'), AbortSignal.abort()));
    expect(reason).toBeInstanceOf(DOMException);
    expect(log).toEqual([]);
  });

  it('passes on why a reed cannot be fitted, and goes on', async () => {
    const { start, reply } = workers();
    const thread = makeFitThread(start);
    const [first, second] = [rejected(thread.ask(wish('a'))), thread.ask(wish('b'))];
    await reply(new Error('passes: must hold readings, got none'));
    await reply();
    expect(await first).toEqual(new Error('passes: must hold readings, got none'));
    expect(await second).toEqual({});
  });

  it('does the same work on the page where a worker cannot be started', async () => {
    const { started, start } = workers();
    const thread = makeFitThread(start);
    const answer = thread.ask(wish('a'));
    started[0]!.die('');
    const here = await makeFitThread().ask(wish('a'));
    const { surfaces } = await answer;
    expect(Object.keys(surfaces!.blades)).toEqual(['A', 'B']);
    expect(surfaces!.blades.A!.mean).toEqual(here.surfaces!.blades.A!.mean);
  });
});
