import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Round } from '../../../shared/round.ts';
import { lastCounts } from '../../../src/ledger/late-acts.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openCarrier } from '../../../src/sharing/pouch-carrier.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { openTestLedger, reedDraft, roundDraft } from '../ledger/open-test-ledger.ts';
import { PATIENCE_MS, startSmallServer, USERS, type SmallServer } from './small-server.ts';

const SECOND_MS = 1000;
const HALF_HOUR_MS = 30 * 60_000;

let server: SmallServer;
let ledger: Ledger;
let roundId: string;
let sharing: Sharing;
let done: Promise<void>;
let isWatched = true;

beforeEach(async () => {
  isWatched = true;
  server = await startSmallServer();
  ledger = await openTestLedger();
  const reedId = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after.id;
  roundId = (await ledger.keep([roundDraft(reedId)], 'round')).steps[0]!.after.id;
  const { name, password } = USERS[0]!;
  const carrier = openCarrier({ address: server.address, name, password });
  const chosen = { role: 'own', tags: [], photos: true, notes: true } as const;
  sharing = new Sharing({ ledger, carrier, chosen, by: name, isWatched: () => isWatched });
  done = sharing.run();
  await held();
  // The clock stands from here on; the network goes on.
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(async () => {
  vi.useRealTimers();
  sharing.stop();
  await done;
  ledger.close();
  await server.close();
});

const turn = () => new Promise((resolve) => setImmediate(resolve));
/** Until nothing more is asked than the one request that is held. */
async function held(): Promise<void> {
  const end = performance.now() + PATIENCE_MS;
  for (let quiet = 0; quiet < 20 && performance.now() < end;) {
    const { length } = server.asked;
    for (let i = 0; i < 10; i++) await turn();
    quiet = server.asked.length === length && server.held === 1 ? quiet + 1 : 0;
  }
  expect(server.held).toBe(1);
}

it('costs at most five requests a batch, and one for all readings of one second', async () => {
  let before = server.asked.length;
  for (let i = 0; i < 8; i++) await ledger.appendAct({ act: 'noted', roundId, text: `${i}` });
  expect(server.asked).toHaveLength(before);
  await vi.advanceTimersByTimeAsync(SECOND_MS);
  await vi.waitFor(() => expect(sharing.waiting.rounds).toEqual([]), PATIENCE_MS);
  await held();
  const readings = server.asked.slice(before);
  expect(readings.filter((line) => line.includes('_bulk_docs'))).toHaveLength(1);
  expect(readings.length).toBeLessThanOrEqual(5);
  // As many in the next two seconds, four in each; and the pass that they become.
  before = server.asked.length;
  for (let i = 0; i < 8; i++) {
    await vi.advanceTimersByTimeAsync(SECOND_MS / 4);
    await ledger.appendAct({ act: 'noted', roundId, text: `${i} again` });
    await held();
  }
  await vi.advanceTimersByTimeAsync(SECOND_MS);
  await vi.waitFor(() => expect(sharing.waiting.rounds).toEqual([]), PATIENCE_MS);
  await held();
  expect(server.asked.slice(before).filter((line) => line.includes('_bulk_docs')).length).toBeLessThanOrEqual(
    3,
  );
  before = server.asked.length;
  const round = (await ledger.get(roundId)) as Round;
  const acts = await ledger.actsOf(roundId);
  const closed = { ...round, closedAs: ledger.newId(), closedWith: lastCounts(acts) };
  await ledger.keep([closed], 'finish', { roundId, count: acts.length });
  await vi.advanceTimersByTimeAsync(2 * SECOND_MS);
  await vi.waitFor(() => expect(sharing.waiting.ids).toEqual([]), PATIENCE_MS);
  await held();
  expect(server.asked.slice(before).length).toBeLessThanOrEqual(5);
  // A reed, the round, and its log.
  const { results } = server.replica.changes({ since: 0, docs: true });
  expect(results.filter(({ doc }) => !doc?.['_deleted'])).toHaveLength(3);
});

it('holds one request while a round is followed, whatever comes', async () => {
  const one = server.asked.filter((line) => line.includes('longpoll')).length;
  for (const text of ['one', 'two', 'three']) {
    const before = server.asked.length;
    await ledger.appendAct({ act: 'noted', roundId, text });
    await vi.advanceTimersByTimeAsync(SECOND_MS);
    await vi.waitFor(() => expect(server.asked.length).toBeGreaterThan(before), PATIENCE_MS);
    await held();
  }
  expect(server.mostHeld).toBe(1);
  expect(server.asked.filter((line) => line.includes('longpoll')).length).toBeGreaterThan(one);
});

it('asks fewer than 100 times in a day in which nobody looks at the page', async () => {
  isWatched = false;
  sharing.wake();
  await vi.waitFor(() => expect(server.held).toBe(0), PATIENCE_MS);
  const before = server.asked.length;
  for (let halfHours = 0; halfHours < 48; halfHours++) {
    const { length } = server.asked;
    await vi.advanceTimersByTimeAsync(HALF_HOUR_MS);
    while (server.asked.length === length) await turn();
    for (let i = 0; i < 30; i++) await turn();
  }
  const day = server.asked.length - before;
  expect(day).toBeGreaterThanOrEqual(48);
  expect(day).toBeLessThan(100);
});
