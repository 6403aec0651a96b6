import { afterEach, expect, it } from 'vitest';
import { FormatError, InputError } from '../../../shared/errors.ts';
import type { Pass } from '../../../shared/pass.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { Reed } from '../../../shared/reed.ts';
import { ConflictError } from '../../../src/ledger/errors.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { freshName, openTestLedger, reedDraft, roundDraft, seededBytes } from './open-test-ledger.ts';

const open: Ledger[] = [];
afterEach(() => open.splice(0).forEach((ledger) => ledger.close()));

async function ledgerNamed(name = freshName(), seed = 1): Promise<Ledger> {
  const ledger = await openTestLedger({ name, random: seededBytes(seed) });
  open.push(ledger);
  return ledger;
}

async function keepReed(ledger: Ledger, label = 'M-1'): Promise<Reed> {
  const { steps } = await ledger.keep([reedDraft(label)], `New reed ${label}`);
  return steps[0]!.after as Reed;
}

it('stamps a new document and reads it back', async () => {
  const ledger = await ledgerNamed();
  const reed = await keepReed(ledger);
  expect(reed).toMatchObject({ label: 'M-1', formatVersion: 1 });
  expect(Object.values(reed.versions)).toEqual([1]);
  expect(await ledger.documents('reed')).toEqual([reed]);
  expect(await ledger.get(reed.id)).toEqual(reed);
});

it('keeps its documents and its device id over closing and opening', async () => {
  const name = freshName();
  const first = await ledgerNamed(name);
  const reed = await keepReed(first);
  first.close();
  const second = await ledgerNamed(name, 2);
  expect(second.deviceId).toBe(first.deviceId);
  expect(await second.get(reed.id)).toEqual(reed);
});

it('raises the writer in the version vector at every change', async () => {
  const ledger = await ledgerNamed();
  const reed = await keepReed(ledger);
  const { steps } = await ledger.keep([{ ...reed, note: 'softer' }], 'Note');
  expect(steps[0]).toMatchObject({ before: reed, after: { note: 'softer' } });
  const [[writer, count]] = Object.entries(reed.versions) as [[string, number]];
  expect(Object.keys(steps[0]!.after.versions)).toEqual([writer]);
  expect(steps[0]!.after.versions[writer]).toBeGreaterThan(count);
});

it('refuses a change to a document that changed since it was read, and writes nothing of it', async () => {
  const name = freshName();
  const [here, there] = [await ledgerNamed(name), await ledgerNamed(name, 2)];
  const reed = await keepReed(here);
  const { steps } = await there.keep([{ ...reed, note: 'from the other window' }], 'Note');
  const stale = here.keep([reedDraft('M-2'), { ...reed, note: 'from this window' }], 'Note');
  const error = await stale.catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(ConflictError);
  const [conflict] = (error as ConflictError).conflicts;
  expect(conflict).toMatchObject({ mine: { note: 'from this window' }, theirs: steps[0]!.after });
  expect(await here.documents('reed')).toEqual([steps[0]!.after]);
});

it('shows a change from another window once told of it', async () => {
  const name = freshName();
  const [here, there] = [await ledgerNamed(name), await ledgerNamed(name, 2)];
  expect(await there.documents('reed')).toEqual([]);
  const told = new Promise((resolve) => there.onChange(resolve));
  const reed = await keepReed(here);
  expect(await told).toEqual({ what: 'documents', ids: [reed.id], shelves: [], here: false });
  expect(await there.documents('reed')).toEqual([reed]);
});

it('gives the same snapshot object until something changes', async () => {
  const ledger = await ledgerNamed();
  await keepReed(ledger);
  const first = await ledger.read();
  expect(await ledger.read()).toBe(first);
  await keepReed(ledger, 'M-2');
  expect(await ledger.read()).not.toBe(first);
});

it('refuses an unsound document with the place of the fault', async () => {
  const ledger = await ledgerNamed();
  const bad = ledger.keep([reedDraft('M-1'), { ...reedDraft('M-2'), slot: 99 }], 'New reeds');
  await expect(bad).rejects.toThrow(FormatError);
  await expect(bad).rejects.toThrow(/change\.1\.slot/);
  expect(await ledger.documents('reed')).toEqual([]);
});

it('names the place of an unsound reading among those that it has kept before', async () => {
  const ledger = await ledgerNamed();
  const reed = await keepReed(ledger);
  const reading = (fromTipMm: number, thicknessMm = 0.4): Reading => ({
    blade: 'A',
    fromTipMm,
    across: 0,
    repeat: 0,
    flag: 'ok',
    role: 'station',
    thicknessMm,
  });
  const readings = [reading(1), reading(2)];
  const draft = { kind: 'pass' as const, reedId: reed.id, index: 0, remedies: [], readings };
  const pass = (await ledger.keep([draft], 'A pass')).steps[0]!.after as Pass;
  const bad = ledger.keep([{ ...pass, readings: [...pass.readings, reading(3, -1)] }], 'A reading');
  await expect(bad).rejects.toThrow(/change\.0\.readings\.2\.thicknessMm/);
  const more = await ledger.keep([{ ...pass, readings: [...pass.readings, reading(3)] }], 'A reading');
  expect((more.steps[0]!.after as Pass).readings).toHaveLength(3);
});

it('puts a document into the bin, takes it out, and purges only from the bin', async () => {
  const ledger = await ledgerNamed();
  const reed = await keepReed(ledger);
  await expect(ledger.purge([reed.id])).rejects.toThrow(InputError);
  await ledger.remove([reed.id], 'To the bin');
  expect((await ledger.read()).live.reed).toEqual([]);
  expect((await ledger.read()).deleted).toMatchObject([{ id: reed.id, label: 'M-1' }]);
  await ledger.restore([reed.id], 'Out of the bin');
  expect(await ledger.documents('reed')).toMatchObject([{ label: 'M-1' }]);
  await ledger.remove([reed.id], 'To the bin');
  await ledger.purge([reed.id]);
  expect(await ledger.get(reed.id)).toBeUndefined();
});

it('numbers the acts of a device in the order in which they were appended, without waiting between', async () => {
  const ledger = await ledgerNamed();
  const reed = await keepReed(ledger);
  const { steps } = await ledger.keep([roundDraft(reed.id)], 'Begin a round');
  const roundId = steps[0]!.after.id;
  const words = Array.from({ length: 30 }, (_, i) => `note ${i}`);
  await Promise.all(words.map((text) => ledger.appendAct({ act: 'noted', roundId, text })));
  const acts = await ledger.actsOf(roundId);
  expect(acts.map((act) => act.act === 'noted' && act.text)).toEqual(words);
  expect(acts.map(({ seq }) => seq)).toEqual(words.map((_, i) => i + 1));
});

it('closes a round only when every act in its log was seen, and adds nothing to a closed one', async () => {
  const ledger = await ledgerNamed();
  const reed = await keepReed(ledger);
  const { steps } = await ledger.keep([roundDraft(reed.id)], 'Begin a round');
  const round = steps[0]!.after;
  await ledger.appendAct({ act: 'noted', roundId: round.id, text: 'one' });
  const passId = ledger.newId();
  const closing = [{ ...round, closedAs: passId }];
  await expect(ledger.keep(closing, 'Close', { roundId: round.id, count: 0 })).rejects.toThrow(ConflictError);
  await ledger.keep(closing, 'Close', { roundId: round.id, count: 1 });
  const late = ledger.appendAct({ act: 'noted', roundId: round.id, text: 'two' });
  await expect(late).rejects.toThrow('This round is closed');
  expect(await ledger.actsOf(round.id)).toHaveLength(1);
});

it('goes on counting when the clock is set back', async () => {
  const name = freshName();
  const first = await ledgerNamed(name);
  const reed = await keepReed(first);
  first.close();
  const early = () => new Date('2001-01-01T00:00:00Z');
  const later = await openTestLedger({ name, clock: early, random: seededBytes(7) });
  open.push(later);
  const { steps } = await later.keep([{ ...reed, note: 'after' }], 'Note');
  expect(steps[0]!.after.updatedAt < reed.updatedAt).toBe(true);
  expect(await later.get(reed.id)).toMatchObject({ note: 'after' });
  await later.keep([{ ...steps[0]!.after, note: 'and on' } as Reed], 'Note');
  expect(await later.get(reed.id)).toMatchObject({ note: 'and on' });
});

it('writes nothing after it was closed, and says so', async () => {
  const ledger = await ledgerNamed();
  ledger.close();
  await expect(ledger.keep([reedDraft('M-1')], 'New reed')).rejects.toThrow('Reload this page');
});
