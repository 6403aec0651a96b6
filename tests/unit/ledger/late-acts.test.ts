import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import type { Pass } from '../../../shared/pass.ts';
import type { Round } from '../../../shared/round.ts';
import { lastCounts } from '../../../src/ledger/late-acts.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { decided, withLate } from '../../../src/round/late-readings.ts';
import { openTestLedger, reedDraft, roundDraft } from './open-test-ledger.ts';

const STATION = { blade: 'A' as const, fromTipMm: 2, across: 0, role: 'station' as const };

const take = (ledger: Ledger, roundId: string, hundredths: number) =>
  ledger.appendAct({ act: 'taken', roundId, station: STATION, thicknessMm: hundredths / 100, flag: 'ok' });

/** One round on two devices: finished on the first, while the second goes on reading. */
async function finishedWithout(): Promise<{ one: Ledger; other: Ledger; round: Round }> {
  const [one, other] = [await openTestLedger(), await openTestLedger()];
  const reedId = (await one.keep([reedDraft('K-1')], 'reed')).steps[0]!.after.id;
  const open = (await one.keep([roundDraft(reedId)], 'round')).steps[0]!.after as Round;
  await take(one, open.id, 20);
  await other.merge(await one.readWhole());
  await take(other, open.id, 30);
  const acts = await one.actsOf(open.id);
  const passId = one.newId();
  const { steps } = await one.keep(
    [
      {
        kind: 'pass',
        id: passId,
        reedId,
        index: 0,
        remedies: [],
        readings: [{ ...STATION, thicknessMm: 0.2, repeat: 0, flag: 'ok' }],
      },
      { ...open, closedAs: passId, closedWith: lastCounts(acts) },
    ],
    'pass',
  );
  return { one, other, round: steps[1]!.after as Round };
}

it.each(['readings after the round', 'the round after the readings'])(
  'asks about late readings, whichever comes first: %s',
  async (order) => {
    const { one, other, round } = await finishedWithout();
    const here = order === 'readings after the round' ? one : other;
    expect(await here.lateRounds()).toEqual([]);
    await here.merge(await (here === one ? other : one).readWhole());
    const [late] = await here.lateRounds();
    expect(late?.round.id).toBe(round.id);
    expect(late?.acts).toHaveLength(2);
    one.close();
    other.close();
  },
);

it('asks no more once they were taken in, here and where that is taken over', async () => {
  const { one, other } = await finishedWithout();
  await one.merge(await other.readWhole());
  const [late] = await one.lateRounds();
  const [pass] = (await one.passesOf(late!.round.reedId)) as [Pass];
  await one.keep([withLate(pass, late!.round, late!.acts), decided(late!.round, late!.acts)], 'late');
  expect(await one.lateRounds()).toEqual([]);
  expect((await one.passesOf(pass.reedId))[0]!.readings.map(({ thicknessMm }) => thicknessMm)).toEqual([
    0.2, 0.3,
  ]);
  await other.merge(await one.readWhole());
  expect(await other.lateRounds()).toEqual([]);
  one.close();
  other.close();
});

it('asks again after a loss, when the library comes back from its copy portion by portion', async () => {
  const { one, other } = await finishedWithout();
  await one.merge(await other.readWhole());
  const again = await openTestLedger();
  const { portions } = await one.portions('all');
  for await (const portion of portions) await again.merge(portion);
  expect(await again.lateRounds()).toHaveLength(1);
  for (const ledger of [one, other, again]) ledger.close();
});
