import 'fake-indexeddb/auto';
import { afterEach, expect, it, vi } from 'vitest';
import { inOrder } from '../../../src/ledger/merge.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import type { Carrier } from '../../../src/sharing/carrier.ts';
import { openCarrier } from '../../../src/sharing/pouch-carrier.ts';
import { isSealed, sealing } from '../../../src/sharing/sealed.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { openTestLedger, reedDraft, roundDraft } from '../ledger/open-test-ledger.ts';
import { PATIENCE_MS, startSmallServer, USERS } from './small-server.ts';

const running: { readonly sharing: Sharing; readonly done: Promise<void> }[] = [];
afterEach(async () => {
  for (const { sharing } of running) sharing.stop();
  await Promise.all(running.splice(0).map(({ done }) => done));
});

function share(ledger: Ledger, carrier: Carrier): Sharing {
  const chosen = { role: 'own', tags: [], photos: true, notes: true } as const;
  const gather = () => Promise.resolve();
  const sharing = new Sharing({ ledger, carrier, chosen, by: 'bench', gather });
  running.push({ sharing, done: sharing.run() });
  return sharing;
}

it('carries everything sealed: the server sees no word of it, another passphrase opens nothing, what was altered is refused', async () => {
  const server = await startSmallServer();
  const { name, password } = USERS[0]!;
  const plain = () => openCarrier({ address: server.address, name, password });
  const [bench, telephone, stranger] = [
    await openTestLedger(),
    await openTestLedger(),
    await openTestLedger(),
  ];
  const reed = (await bench.keep([reedDraft('K-secret')], 'reed')).steps[0]!.after;
  const roundId = (await bench.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  await bench.appendAct({ act: 'noted', roundId, text: 'secret words' });
  const png = Uint8Array.from(
    atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='),
    (sign) => sign.charCodeAt(0),
  );
  await bench.keepPhoto({ of: reed.id }, png, 'photo');
  share(bench, sealing(plain(), 'long gouge', name));
  await vi.waitFor(() => expect(running[0]!.sharing.state.is).toBe('even'), PATIENCE_MS);
  const first = share(telephone, sealing(plain(), 'long gouge', name));
  const holdings = async (ledger: Ledger) => inOrder(await ledger.readWhole());
  await vi.waitFor(async () => {
    expect(await holdings(telephone)).toEqual(await holdings(bench));
    expect((await telephone.readWhole()).attachments).toEqual((await bench.readWhole()).attachments);
  }, PATIENCE_MS);
  expect(first.refused).toEqual([]);

  const there = server.replica.changes({ since: 0, docs: true }).results.map(({ doc }) => doc!);
  const text = JSON.stringify(there);
  for (const word of ['secret', reed.id, roundId, 'label', 'noted', 'image/png', 'long gouge'])
    expect(text).not.toContain(word);
  expect(await isSealed(plain())).toBe(true);

  const other = share(stranger, sealing(plain(), 'short gouge', name));
  await vi.waitFor(
    () => expect(other.state).toMatchObject({ error: { trouble: 'passphrase' } }),
    PATIENCE_MS,
  );
  expect((await stranger.read()).isEmpty).toBe(true);

  // A sealed document under the name of another is not taken for it.
  const [a, b] = there.filter(({ _id }) => _id.startsWith('s-'));
  const { _rev: _, ...body } = b!;
  server.replica.write(
    [{ ...body, _id: a!._id.replace(/.$/, (digit) => (digit === '0' ? '1' : '0')) }],
    () => undefined,
  );
  await vi.waitFor(() => expect(first.refused).toHaveLength(1), PATIENCE_MS);
  await server.close();
});
