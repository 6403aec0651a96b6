import { describe, expect, it } from 'vitest';
import { makeFitThread, type FitWorker } from '../../../components/store/fit-thread.ts';
import type { FitRequest } from '../../../src/answers/concurrent/fit-request.ts';
import type { FitReply } from '../../../src/answers/concurrent/fit-worker.ts';
import { scenarioReed } from '../../scenario-reed.ts';

/** Workers that answer when they are told to. */
function workers() {
  const log: string[] = [];
  const started: FitWorker[] = [];
  const start = (): FitWorker => {
    const worker: FitWorker = {
      onmessage: null,
      onerror: null,
      postMessage: ({ key }) => log.push(`begins ${key}`),
      terminate: () => log.push('stopped'),
    };
    started.push(worker);
    return worker;
  };
  const reply = (data: FitReply = { answer: {} }) =>
    started.at(-1)!.onmessage!(new MessageEvent('message', { data }));
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
    reply();
    reply();
    await awaited;
    reply();
    reply();
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
    reply();
    await third;
    expect(log).toEqual(['begins a', 'stopped', 'begins c']);
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
    reply({ error: new Error('passes: must hold readings, got none') });
    reply();
    expect(await first).toEqual(new Error('passes: must hold readings, got none'));
    expect(await second).toEqual({});
  });

  it('does the same work on the page where a worker cannot be started', async () => {
    const { started, start } = workers();
    const thread = makeFitThread(start);
    const answer = thread.ask(wish('a'));
    started[0]!.onerror!({} as ErrorEvent);
    const here = await makeFitThread().ask(wish('a'));
    const { surfaces } = await answer;
    expect(Object.keys(surfaces!.blades)).toEqual(['A', 'B']);
    expect(surfaces!.blades.A!.mean).toEqual(here.surfaces!.blades.A!.mean);
  });
});
