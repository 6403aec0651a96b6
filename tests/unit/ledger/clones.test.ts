import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import type { Reed } from '../../../shared/reed.ts';
import { copyToFolder } from '../../../src/ledger/outside-copies.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { MemoryFolder } from './memory-folder.ts';
import { cloned, freshName, openTestLedger, reedDraft, roundDraft } from './open-test-ledger.ts';

async function twoDevices(): Promise<{ one: Ledger; other: Ledger; reed: Reed; roundId: string }> {
  const name = freshName();
  const before = await openTestLedger({ name });
  const reed = (await before.keep([reedDraft('K-1')], 'reed')).steps[0]!.after as Reed;
  const roundId = (await before.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  before.close();
  const copy = await cloned(name);
  const [one, other] = [await openTestLedger({ name }), await openTestLedger({ name: copy })];
  expect(other.deviceId).toBe(one.deviceId);
  return { one, other, reed, roundId };
}

it('asks where two devices that were one have set one field differently, however often each has written', async () => {
  const { one, other, reed } = await twoDevices();
  await one.keep([{ ...reed, note: 'one' }], 'note');
  await other.keep([reedDraft('K-2')], 'more writes');
  await other.keep([{ ...reed, note: 'other' }], 'note');
  await one.merge(await other.readWhole());
  await other.merge(await one.readWhole());
  for (const ledger of [one, other]) {
    const { disagreements } = await ledger.read();
    expect(disagreements.map((sides) => sides.map((side) => (side as Reed).note).sort())).toEqual([
      ['one', 'other'],
    ]);
    ledger.close();
  }
});

it('has both edits where they are of different fields, and the readings of both in one round', async () => {
  const { one, other, reed, roundId } = await twoDevices();
  await one.keep([{ ...reed, note: 'one' }], 'note');
  await other.keep([{ ...reed, tags: ['other'] }], 'tags');
  for (const [ledger, text] of [
    [one, 'one'],
    [other, 'other'],
  ] as const)
    await ledger.appendAct({ act: 'noted', roundId, text });
  await one.merge(await other.readWhole());
  expect(await one.get(reed.id)).toMatchObject({ note: 'one', tags: ['other'] });
  expect((await one.read()).disagreements).toEqual([]);
  const acts = await one.actsOf(roundId);
  expect(acts.map((act) => act.act === 'noted' && act.text).sort()).toEqual(['one', 'other']);
  const next = await one.appendAct({ act: 'noted', roundId, text: 'after both' });
  expect((await one.actsOf(roundId)).at(-1)).toEqual(next);
  one.close();
  other.close();
});

it('never writes under one name at two openings', async () => {
  const name = freshName();
  const writers = new Set<string>();
  for (let opening = 0; opening < 3; opening++) {
    const ledger = await openTestLedger({ name });
    const { steps } = await ledger.keep([reedDraft(`K-${opening}`)], 'reed');
    Object.keys(steps[0]!.after.versions).forEach((writer) => writers.add(writer));
    ledger.close();
  }
  expect(writers.size).toBe(3);
});

it('notices in a shared folder that it was cloned, and leaves the copies of the other', async () => {
  const { one, other, reed } = await twoDevices();
  const folder = new MemoryFolder('copies');
  const at = (hour: number) => new Date(Date.parse('2026-03-01T06:00:00Z') + hour * 3_600_000);
  await copyToFolder(one, folder, at(0));
  await other.keep([{ ...reed, note: 'other' }], 'note');
  await copyToFolder(other, folder, at(1));
  await copyToFolder(one, folder, at(2));
  await copyToFolder(other, folder, at(3));
  await copyToFolder(one, folder, at(4));
  const names = [...folder.files.keys()];
  const marks = names.map((name) => /-([0-9a-f]{6})\.zip$/.exec(name)?.[1]);
  expect(names).toHaveLength(2);
  expect(new Set(marks).size).toBe(2);
  one.close();
  other.close();
});
