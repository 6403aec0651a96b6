import 'fake-indexeddb/auto';
import { afterEach, expect, it, vi } from 'vitest';
import type { Carrier } from '../../../src/sharing/carrier.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { openTestLedger, reedDraft } from '../ledger/open-test-ledger.ts';

const DAY_MS = 86_400_000;

afterEach(() => vi.useRealTimers());

/** A case in which nothing happens, and every request to it. */
function quietCarrier() {
  const asked: string[] = [];
  const ask = <T>(name: string, answer: T) => {
    asked.push(name);
    return Promise.resolve(answer);
  };
  const carrier: Carrier = {
    greet: () => ask('greet', undefined),
    changes: (since) => ask('changes', { rows: [], last: since, pending: 0 }),
    hold: (_, signal) => {
      asked.push('hold');
      return new Promise((__, reject) => signal.addEventListener('abort', () => reject(signal.reason)));
    },
    missing: (ids) => ask('missing', new Set(ids)),
    send: (documents) =>
      ask(
        'send',
        documents.map(({ _id }) => ({ id: _id, is: 'there' as const })),
      ),
    branches: () => ask('branches', []),
    close: () => ask('close', undefined),
    read: () => ask('read', {}),
    picture: () => ask('picture', new Uint8Array()),
    mark: () => ask('mark', 1),
    setMark: () => ask('setMark', undefined),
  };
  return { carrier, asked };
}

it('asks fewer than 100 times in a day in which nobody looks at the page, and holds one request while somebody does', async () => {
  const ledger = await openTestLedger();
  await ledger.keep([reedDraft('K-1')], 'reed');
  const { carrier, asked } = quietCarrier();
  let isWatched = true;
  const chosen = { role: 'own', tags: [], photos: true, notes: true } as const;
  const sharing = new Sharing({ ledger, carrier, chosen, by: 'bench', isWatched: () => isWatched });
  const done = sharing.run();
  await vi.waitFor(() => expect(asked.at(-1)).toBe('hold'));
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  const before = asked.length;
  await vi.advanceTimersByTimeAsync(DAY_MS);
  expect(asked).toHaveLength(before);
  isWatched = false;
  sharing.wake();
  await vi.advanceTimersByTimeAsync(DAY_MS);
  const day = asked.slice(before);
  expect(day.length).toBeGreaterThan(20);
  expect(day.length).toBeLessThan(100);
  vi.useRealTimers();
  sharing.stop();
  await done;
  ledger.close();
});
