import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LibraryDocument } from '../../../shared/library.ts';
import type { Pass, PassHead } from '../../../shared/pass.ts';
import { readEntries } from '../../../src/ledger/journal/take-in.ts';
import { openHistory } from '../../../src/ledger/history.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { NOTHING } from '../../../src/ledger/whole-library.ts';
import { memoryJournal } from './memory-journal.ts';
import { freshName, openTestLedger, reedDraft } from './open-test-ledger.ts';
import { idOf } from './random-libraries.ts';
import { libraryText, readBackup } from '../../whole-library.ts';

/** Invented. */
const passDraft = (reedId: string, index: number) => ({
  kind: 'pass' as const,
  reedId,
  index,
  remedies: [],
  readings: [0.2, 0.4, 0.45].map((thicknessMm, i) => ({
    blade: 'A' as const,
    fromTipMm: 2 * i,
    across: 0,
    thicknessMm,
    repeat: 0,
    flag: 'ok' as const,
    role: 'station' as const,
    seconds: 10 * i,
  })),
});

async function reedWithPasses(ledger: Ledger, count = 2) {
  const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after;
  const drafts = Array.from({ length: count }, (_, index) => passDraft(reed.id, index));
  const steps = (await ledger.keep(drafts, 'passes')).steps.map(({ after }) => after as Pass);
  return { reed, passes: steps };
}

const head = async (ledger: Ledger, id: string) =>
  (await ledger.read()).live.pass.find((one) => one.id === id) as PassHead;

describe('a pass in the index', () => {
  it('has everything but its readings, and how many they are', async () => {
    const ledger = await openTestLedger();
    const { reed, passes } = await reedWithPasses(ledger);
    const { readings: _, ...facts } = passes[0]!;
    const listed = await head(ledger, passes[0]!.id);
    expect(listed).toEqual({ ...facts, readingCount: 3, readingSeconds: 20 });
    expect((await ledger.read()).passesOf(reed.id)).toHaveLength(2);
    expect(await ledger.passesOf(reed.id)).toEqual(passes);
    ledger.close();
  });

  it('keeps its readings when it is changed without them, and gets them back by undo', async () => {
    const ledger = await openTestLedger();
    const history = openHistory(ledger);
    const { passes } = await reedWithPasses(ledger);
    const listed = await head(ledger, passes[0]!.id);
    await history.keep([{ ...listed, note: 'soft' }], 'note');
    expect(await ledger.get(listed.id)).toMatchObject({ note: 'soft', readings: passes[0]!.readings });
    expect(await ledger.get(listed.id)).not.toHaveProperty('readingCount');
    await history.undo();
    const back = (await ledger.get(listed.id)) as Pass;
    expect(back).not.toHaveProperty('note');
    expect(back.readings).toEqual(passes[0]!.readings);
    ledger.close();
  });

  it('moves to the shelf of another reed with its reed, and leaves the shelf for good when it is removed', async () => {
    const ledger = await openTestLedger();
    const { reed, passes } = await reedWithPasses(ledger);
    const [other] = (await ledger.keep([reedDraft('K-2')], 'reed')).steps;
    const listed = await head(ledger, passes[0]!.id);
    await ledger.keep([{ ...listed, reedId: other!.after.id }], 'moved');
    const after = await ledger.read();
    expect(after.passesOf(reed.id).map(({ id }) => id)).toEqual([passes[1]!.id]);
    expect(after.passesOf(other!.after.id).map(({ id }) => id)).toEqual([passes[0]!.id]);
    await ledger.remove([passes[0]!.id], 'bin');
    expect((await ledger.read()).passesOf(other!.after.id)).toEqual([]);
    expect((await ledger.read()).deleted.map(({ id }) => id)).toEqual([passes[0]!.id]);
    await ledger.restore([passes[0]!.id], 'back');
    expect((await ledger.read()).passesOf(other!.after.id)).toHaveLength(1);
    await ledger.remove([passes[0]!.id], 'bin');
    await ledger.purge([passes[0]!.id]);
    expect((await ledger.read()).deleted).toEqual([]);
    expect(await ledger.passesOf(other!.after.id)).toEqual([]);
    ledger.close();
  });

  it('is shown whole, readings and all, where two devices disagree', async () => {
    const [one, other] = [await openTestLedger(), await openTestLedger()];
    const { passes } = await reedWithPasses(one);
    await other.merge(await one.readWhole());
    await one.keep([{ ...(await head(one, passes[0]!.id)), note: 'here' }], 'note');
    await other.keep([{ ...(await head(other, passes[0]!.id)), note: 'there' }], 'note');
    await one.merge(await other.readWhole());
    const [sides] = (await one.read()).disagreements;
    expect(sides?.map((side) => (side as Pass).note).sort()).toEqual(['here', 'there']);
    for (const side of sides ?? []) expect((side as Pass).readings).toEqual(passes[0]!.readings);
    await one.settle(sides![0]!, sides!, 'chosen');
    expect((await one.read()).disagreements).toEqual([]);
    one.close();
    other.close();
  });

  it('that cannot be read is set aside, and stays', async () => {
    const ledger = await openTestLedger();
    const { reed } = await reedWithPasses(ledger);
    const record = { kind: 'pass', id: idOf(77), reedId: reed.id, formatVersion: 99 };
    await ledger.merge({ ...NOTHING, setAside: [{ of: 'documents', id: record.id, reason: '', record }] });
    const { setAside, live } = await ledger.read();
    expect(setAside).toMatchObject([{ id: record.id, record }]);
    expect(live.pass).toHaveLength(2);
    expect((await ledger.readWhole()).setAside).toHaveLength(1);
    ledger.close();
  });

  it('is read by another window when it has changed there', async () => {
    const name = freshName();
    const [one, other] = [await openTestLedger({ name }), await openTestLedger({ name })];
    const { passes } = await reedWithPasses(one);
    await other.read();
    await one.keep([{ ...(await head(one, passes[1]!.id)), note: 'new' }], 'note');
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect((await head(other, passes[1]!.id)).note).toBe('new');
    one.close();
    other.close();
  });
});

it('reads everything again when a window of an older program tells of a change and names no shelves', async () => {
  const name = freshName();
  const ledger = await openTestLedger({ name });
  const { reed, passes } = await reedWithPasses(ledger);
  expect((await ledger.read()).passesOf(reed.id)).toHaveLength(2);
  const raw = await new Dexie(name).open();
  await raw.table('shelves').delete(reed.id);
  raw.close();
  const channel = new BroadcastChannel(`${name} changes`);
  channel.postMessage({ what: 'documents', ids: [passes[0]!.id], here: true });
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect((await ledger.read()).passesOf(reed.id)).toEqual([]);
  channel.close();
  ledger.close();
});

describe('a library in which passes stood among the other documents', () => {
  const whole = () => readBackup(readFileSync('tests/unit/ledger/samples/bundle-1.zip'));

  /** A database as the program of version 2 left it. */
  async function databaseOf2(
    name: string,
    documents: readonly LibraryDocument[],
    records: readonly object[] = [],
  ) {
    const old = new Dexie(name);
    old.version(2).stores({
      documents: '&id',
      acts: '&id, roundId',
      device: '&key',
      attachments: '&sha256',
      copies: '++number',
      remembered: '&key',
    });
    await old.open();
    const ids = [...new Set(documents.map(({ id }) => id))];
    await old
      .table('documents')
      .bulkAdd([...ids.map((id) => ({ id, sides: documents.filter((one) => one.id === id) })), ...records]);
    await old.table('device').add({ key: 'device', id: idOf(900), writes: 9, acts: 1 });
    old.close();
  }

  it('is brought over with every side, reading and broken record, and an older copy has nothing to add', async () => {
    const name = freshName();
    const before = await whole();
    const broken = { id: idOf(70), sides: [{ kind: 'pass', id: idOf(70), readings: 'none' }] };
    await databaseOf2(name, before.documents, [broken]);
    const ledger = await openTestLedger({ name });
    const after = await ledger.readWhole();
    expect(libraryText({ documents: after.documents, acts: [] })).toBe(
      libraryText({ documents: before.documents, acts: [] }),
    );
    expect(after.setAside).toMatchObject([{ id: idOf(70), record: broken.sides[0] }]);
    const [pass] = before.documents.filter(({ kind }) => kind === 'pass') as Pass[];
    expect((await ledger.read()).passesOf(pass!.reedId)).toHaveLength(1);
    expect(await ledger.compare({ documents: before.documents, acts: [] })).toMatchObject({
      documents: { new: 0, newer: 0, apart: 0 },
    });
    ledger.close();
    const raw = await new Dexie(name).open();
    expect((await raw.table<{ id: string }>('documents').toArray()).map(({ id }) => id)).toEqual([idOf(1)]);
    raw.close();
  });

  it('is as it was when the bringing over is broken off', async () => {
    const name = freshName();
    const { documents } = await whole();
    await databaseOf2(name, documents);
    const half = new Dexie(name);
    half
      .version(3)
      .stores({ gone: '&id', passes: '&id', shelves: '&id' })
      .upgrade(async (transaction) => {
        await transaction.table('documents').clear();
        throw new Error('the browser dies');
      });
    await expect(half.open()).rejects.toThrow();
    half.close();
    const ledger = await openTestLedger({ name });
    expect(libraryText({ documents: (await ledger.readWhole()).documents, acts: [] })).toBe(
      libraryText({ documents, acts: [] }),
    );
    ledger.close();
  });
});

describe('what is stored', () => {
  it('is checked when it comes in, and not again; a check of everything finds what is broken', async () => {
    const name = freshName();
    const ledger = await openTestLedger({ name });
    const { reed, passes } = await reedWithPasses(ledger);
    ledger.close();
    const raw = await new Dexie(name).open();
    const row = (await raw.table('documents').get(reed.id)) as { sides: object[] };
    await raw.table('documents').put({ ...row, sides: [{ ...row.sides[0], label: 7 }] });
    raw.close();
    const again = await openTestLedger({ name });
    expect((await again.read()).setAside).toEqual([]);
    const shares: number[] = [];
    const found = await again.checkAll({ onProgress: (share) => shares.push(share) });
    expect(found).toMatchObject({
      checked: 3,
      mended: [],
      setAside: [{ id: reed.id, reason: expect.stringContaining('label') as string }],
    });
    expect(shares.at(-1)).toBe(1);
    // From now on it is set aside, and what is sound is not.
    expect((await again.read()).setAside).toMatchObject([{ id: reed.id }]);
    expect((await again.read()).passesOf(reed.id)).toHaveLength(passes.length);
    again.close();
  });

  it('is noted in the journal with its readings packed: a library taken in is not ten times as long there', async () => {
    const lines: string[] = [];
    const ledger = await openTestLedger({ journal: memoryJournal(lines) });
    const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after;
    const draft = passDraft(reed.id, 0);
    const readings = Array.from({ length: 140 }, (_, i) => ({
      ...draft.readings[0]!,
      fromTipMm: i / 10,
      thicknessMm: 0.2 + i / 400,
      seconds: i,
    }));
    const pass = (await ledger.keep([{ ...draft, readings }], 'pass')).steps[0]!.after;
    // One by one they take 16 kB.
    expect(lines.at(-1)!.length).toBeLessThan(4000);
    expect((await readEntries(lines)).entries.at(-1)?.documents).toEqual([pass]);
    ledger.close();
  });

  it('mends a list of passes that is not as the passes are, and is worked on without one that can be read', async () => {
    const name = freshName();
    const ledger = await openTestLedger({ name });
    const { reed, passes } = await reedWithPasses(ledger, 3);
    await ledger.remove([passes[2]!.id], 'bin');
    const one = (await ledger.keep([reedDraft('K-2')], 'reed')).steps[0]!.after;
    await ledger.keep([passDraft(one.id, 0)], 'pass');
    const bare = (await ledger.keep([reedDraft('K-3')], 'reed')).steps[0]!.after;
    const sound = async () => (await ledger.read()).passesOf(reed.id);
    const before = await sound();
    expect(before.map(({ id }) => id)).toEqual([passes[0]!.id, passes[1]!.id]);
    // Whatever has been written, a list is as its passes are.
    expect((await ledger.checkAll()).mended).toEqual([]);

    const raw = await new Dexie(name).open();
    const shelves = raw.table<{ id: string; heads: string }>('shelves');
    const whole = (await shelves.get(reed.id))!;
    const cut = { ...whole, heads: whole.heads.slice(0, -9) };
    await shelves.put(cut);
    // A change finds the others of the reed by looking through all passes.
    await ledger.keep([{ ...before[0]!, note: 'soft' }], 'note');
    expect((await sound()).map(({ note }) => note)).toEqual(['soft', undefined]);
    await shelves.put(cut);
    expect((await ledger.passesOf(reed.id)).map(({ id }) => id)).toEqual([passes[0]!.id, passes[1]!.id]);
    // Whoever looks at it has it made anew.
    const again = await openTestLedger({ name });
    const told = new Promise((resolve) => again.onChange(resolve));
    expect((await again.read()).passesOf(reed.id)).toEqual([]);
    expect(await told).toMatchObject({ what: 'documents', shelves: [reed.id] });
    expect((await again.read()).passesOf(reed.id)).toHaveLength(2);
    again.close();

    const [, other] = JSON.parse(whole.heads) as object[];
    await shelves.put({ ...whole, heads: JSON.stringify([other]) });
    await shelves.delete(one.id);
    await shelves.put({ ...whole, id: bare.id });
    raw.close();
    expect([...(await ledger.checkAll()).mended].sort()).toEqual([reed.id, one.id, bare.id].sort());
    expect((await sound()).map(({ note }) => note)).toEqual(['soft', undefined]);
    expect((await ledger.read()).passesOf(one.id)).toHaveLength(1);
    expect((await ledger.read()).passesOf(bare.id)).toEqual([]);
    expect((await ledger.checkAll()).mended).toEqual([]);
    ledger.close();
  });
});
