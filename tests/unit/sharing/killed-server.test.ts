import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished, vi } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { inOrder } from '../../../src/ledger/merge.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openCarrier } from '../../../src/sharing/pouch-carrier.ts';
import { Sharing } from '../../../src/sharing/sharing.ts';
import { seededRandom } from '../../seeded-random.ts';
import { openTestLedger, reedDraft, roundDraft, tickingClock } from '../ledger/open-test-ledger.ts';
import { KillableServer } from './killable-server.ts';

/** How often the server is killed; npm run study:sharing does it 50 times. */
const KILLS = Number(process.env['KILLS'] ?? 2);
const PATIENCE_MS = 60_000 + KILLS * 20_000;

it(
  `is one library on two devices, of which one is a year ahead, when the server was killed ${KILLS} times`,
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'hundredths-killed-'));
    const path = join(folder, 'case.jsonl');
    const chance = seededRandom(KILLS);
    const ledgers = [
      await openTestLedger(),
      await openTestLedger({ clock: tickingClock('2027-03-01T09:00:00Z') }),
    ] as const;
    const reed = (await ledgers[0].keep([reedDraft('K-1')], 'reed')).steps[0]!.after as Reed;
    const roundId = (await ledgers[0].keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
    const server = await KillableServer.on(path);
    onTestFinished(() => server.kill());
    const login = { address: server.address, name: 'bench', password: 'reed knife' };
    const all = ledgers.map((ledger) => {
      const chosen = { role: 'own', tags: [], photos: true, notes: true } as const;
      const gather = () => new Promise<void>((resolve) => setTimeout(resolve, 5));
      return new Sharing({ ledger, carrier: openCarrier(login), chosen, by: login.name, gather });
    });
    const done = all.map((sharing) => sharing.run());
    await vi.waitFor(async () => expect(await ledgers[1].get(roundId)).toBeDefined(), PATIENCE_MS);
    let count = 0;
    const write = async (ledger: Ledger) => {
      count += 1;
      await ledger.appendAct({ act: 'noted', roundId, text: `act ${count}` });
      await ledger.keep([reedDraft(`M-${count}`)], 'reed');
    };
    for (let i = 0; i < KILLS; i++) {
      for (const ledger of ledgers) await write(ledger);
      await new Promise((resolve) => setTimeout(resolve, chance() * 60));
      await server.kill();
      for (const ledger of ledgers) await write(ledger);
      await server.start();
      for (const sharing of all) sharing.wake();
    }
    const holdings = async (ledger: Ledger) => inOrder(await ledger.readWhole());
    await vi.waitFor(async () => {
      for (const sharing of all) expect(sharing.state.is).toBe('even');
      expect(await holdings(ledgers[0])).toEqual(await holdings(ledgers[1]));
    }, PATIENCE_MS);
    const { documents, acts } = await holdings(ledgers[1]);
    // A reed and a round, and all that was written meanwhile, each once.
    expect([documents.length, acts.length]).toEqual([2 + 4 * KILLS, 4 * KILLS]);
    expect(new Set(acts.map((act) => act.act === 'noted' && act.text)).size).toBe(4 * KILLS);
    for (const sharing of all) sharing.stop();
    await Promise.all(done);
    for (const ledger of ledgers) ledger.close();
    await server.kill();
    rmSync(folder, { recursive: true });
  },
  PATIENCE_MS,
);
