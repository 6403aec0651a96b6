import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import { putOffRisk, readAtRisk } from '../../../src/ledger/at-risk.ts';
import type { Draft, NewDraft } from '../../../src/ledger/drafts.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { noteCopy } from '../../../src/ledger/outside-copies.ts';
import { openTestLedger, reedDraft, roundDraft } from './open-test-ledger.ts';

/** A library in a browser that has promised to keep it, or has not; its clock stands until it is moved. */
async function library(persisted: boolean | undefined) {
  let now = Date.parse('2026-03-01T09:00:00Z');
  const storage = {
    persisted: async () => persisted as boolean,
    persist: async () => false,
    estimate: async () => ({}),
  };
  const ledger = await openTestLedger({ clock: () => new Date(now), storage });
  const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after.id;
  return { ledger, reed, later: () => new Date((now += 60_000)) };
}

let index = 0;
const passOf = (reedId: string, count: number): Extract<NewDraft, { kind: 'pass' }> => ({
  kind: 'pass',
  reedId,
  index: index++,
  remedies: [],
  readings: Array.from({ length: count }, (_, at) => ({
    blade: 'A',
    fromTipMm: 2 + at / 20,
    across: 0,
    thicknessMm: 0.4,
    repeat: 0,
    flag: 'ok',
    role: 'station',
  })),
});
const read = (ledger: Ledger, draft: Draft) => ledger.keep([draft], 'pass');

it('tells of the first reading where the browser has not promised, and of none before', async () => {
  const { ledger, reed } = await library(false);
  expect(await readAtRisk(ledger, true)).toEqual({ readings: 0, mayForget: true, isDue: false });
  await read(ledger, passOf(reed, 1));
  expect(await readAtRisk(ledger, true)).toEqual({ readings: 1, mayForget: true, isDue: true });
  ledger.close();
});

it('takes a browser that says nothing, or has no second place, for one that may forget', async () => {
  const silent = await library(undefined);
  expect((await readAtRisk(silent.ledger, true)).mayForget).toBe(true);
  silent.ledger.close();
  const promised = await library(true);
  expect((await readAtRisk(promised.ledger, false)).mayForget).toBe(true);
  expect((await readAtRisk(promised.ledger, true)).mayForget).toBe(false);
  promised.ledger.close();
});

it('comes again after 200 readings more, however long that takes, and not before', async () => {
  const { ledger, reed } = await library(false);
  await read(ledger, passOf(reed, 70));
  await putOffRisk(ledger, await readAtRisk(ledger, true));
  expect(await readAtRisk(ledger, true)).toMatchObject({ readings: 70, isDue: false });
  await read(ledger, passOf(reed, 199));
  expect(await readAtRisk(ledger, true)).toMatchObject({ readings: 269, isDue: false });
  await read(ledger, passOf(reed, 1));
  expect(await readAtRisk(ledger, true)).toMatchObject({ readings: 270, isDue: true });
  ledger.close();
});

it('waits for 1,000 readings where the browser has promised', async () => {
  const { ledger, reed } = await library(true);
  await read(ledger, passOf(reed, 999));
  expect((await readAtRisk(ledger, true)).isDue).toBe(false);
  await read(ledger, passOf(reed, 1));
  expect((await readAtRisk(ledger, true)).isDue).toBe(true);
  ledger.close();
});

it('counts what has changed since the last copy, and begins anew with it', async () => {
  const { ledger, reed, later } = await library(false);
  await read(ledger, passOf(reed, 300));
  await putOffRisk(ledger, await readAtRisk(ledger, true));
  await noteCopy(ledger, 'download', later());
  expect(await readAtRisk(ledger, true)).toMatchObject({ readings: 0, isDue: false });
  later();
  await read(ledger, passOf(reed, 5));
  expect(await readAtRisk(ledger, true)).toMatchObject({ readings: 5, isDue: true });
  ledger.close();
});

it('counts readings of a round that is not finished, and none of invented reeds', async () => {
  const { ledger, reed } = await library(false);
  const round = (await ledger.keep([roundDraft(reed)], 'round')).steps[0]!.after.id;
  const station = roundDraft(reed).stations[0]!;
  for (const thicknessMm of [0.2, 0.21])
    await ledger.appendAct({ act: 'taken', roundId: round, station, thicknessMm, flag: 'ok' });
  const example = { ...reedDraft('X-1'), id: ledger.newId(), invented: true as const };
  await ledger.keep([example, { ...passOf(example.id, 9), invented: true }], 'example');
  expect((await readAtRisk(ledger, true)).readings).toBe(2);
  ledger.close();
});
