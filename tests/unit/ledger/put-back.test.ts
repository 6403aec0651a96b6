import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { afterEach, expect, it } from 'vitest';
import { namesIn, writeFile } from '../../../src/ledger/folder.ts';
import type { Journal } from '../../../src/ledger/journal/journal.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { openMirror, type Mirror } from '../../../src/ledger/mirror/mirror.ts';
import { openLibrary, type OpenedLibrary } from '../../../src/ledger/open-library.ts';
import { memoryJournal } from './memory-journal.ts';
import { MemoryFolder } from './memory-folder.ts';
import { freshName, reedDraft, roundDraft, seededBytes, tickingClock } from './open-test-ledger.ts';
import { libraryText } from '../../whole-library.ts';

// An engine that finds the end of its log torn may open with all that stood before it, and say nothing.

const TABLES = ['documents', 'acts', 'device', 'gone'];

/** The tables as they stand. */
async function tablesOf(name: string): Promise<Map<string, unknown[]>> {
  const raw = await new Dexie(name).open();
  const rows = await Promise.all(TABLES.map((table) => raw.table(table).toArray()));
  raw.close();
  return new Map(TABLES.map((table, i) => [table, rows[i]!]));
}

async function putBack(name: string, tables: ReadonlyMap<string, unknown[]>): Promise<void> {
  const raw = await new Dexie(name).open();
  for (const [table, rows] of tables) {
    await raw.table(table).clear();
    await raw.table(table).bulkAdd(rows);
  }
  raw.close();
}

let seed = 1;
let opened: OpenedLibrary | undefined;
afterEach(() => shut());

async function shut(): Promise<void> {
  await opened?.copy?.mirroring.stop();
  opened?.ledger.close();
  opened = undefined;
}

/** The browser dies: what waits for the second copy never gets there. */
function die(): void {
  opened?.ledger.close();
  opened = undefined;
}

interface Places {
  readonly name: string;
  readonly root: MemoryFolder;
  readonly journal: Journal;
  readonly change?: (mirror: Mirror) => Mirror;
}

const places = (): Places => ({ name: freshName(), root: new MemoryFolder(), journal: memoryJournal() });

async function open({ name, root, journal, change = (mirror) => mirror }: Places): Promise<OpenedLibrary> {
  const options = { name, clock: tickingClock(), random: seededBytes(seed++) };
  const openOne = async () => change(await openMirror(root));
  opened = await openLibrary(options, { openMirror: openOne, journal });
  await opened.copy?.mirroring.flush();
  return opened;
}

/** A reed and a round in the second copy, and later changes of both, with the tables as they stood before those. */
async function grown(ledger: Ledger, name: string) {
  const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after;
  const round = (await ledger.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  const before = await tablesOf(name);
  for (const text of ['one', 'two']) await ledger.appendAct({ act: 'noted', roundId: round, text });
  let last = reed;
  for (const note of ['1', '2', '3'])
    last = (await ledger.keep([{ ...last, note } as typeof reed], 'note')).steps[0]!.after;
  return { reed, round, before, text: libraryText(await ledger.readWhole()) };
}

const textOf = async (ledger: Ledger) => libraryText(await ledger.readWhole());

it('takes back what the journal has, and gives none of its numbers a second time', async () => {
  const at = places();
  const { ledger } = await open(at);
  const { reed, round, before, text } = await grown(ledger, at.name);
  die();
  await putBack(at.name, before);

  const again = await open(at);
  expect(await textOf(again.ledger)).toBe(text);
  const now = (await again.ledger.get(reed.id))!;
  await again.ledger.keep([{ ...now, note: 'after' } as typeof now], 'note');
  expect(await again.ledger.get(reed.id)).toMatchObject({ note: 'after' });
  const act = await again.ledger.appendAct({ act: 'noted', roundId: round, text: 'three' });
  const acts = await again.ledger.actsOf(round);
  expect(new Set(acts.map(({ deviceId, seq }) => `${deviceId} ${seq}`)).size).toBe(3);
  expect(acts.at(-1)?.id).toBe(act.id);
});

it('takes back at once what the second copy has, and goes on as a new device', async () => {
  const at = places();
  const { ledger, copy } = await open(at);
  const { before, text } = await grown(ledger, at.name);
  await copy!.mirroring.flush();
  die();
  await putBack(at.name, before);

  const again = await open(at);
  expect(again.ledger.deviceId).not.toBe(ledger.deviceId);
  expect(again.broughtBack).toMatchObject([
    { report: { documents: { newer: 1, apart: 0 }, acts: { new: 2 } } },
  ]);
  expect(again.copy!.lost).toEqual([]);
  expect(await textOf(again.ledger)).toBe(text);
});

it('has a whole copy again as a new device, for the day on which the rest is lost too', async () => {
  const at = places();
  const { ledger, copy } = await open(at);
  const { reed } = await grown(ledger, at.name);
  // What stands here is known to both, and is not told of when the copy is taken in.
  const before = await tablesOf(at.name);
  await ledger.keep([{ ...(await ledger.get(reed.id))!, note: 'late' } as typeof reed], 'note');
  const text = await textOf(ledger);
  await copy!.mirroring.flush();
  die();
  await putBack(at.name, before);
  const again = await open(at);
  expect(again.ledger.deviceId).not.toBe(ledger.deviceId);
  expect(await textOf(again.ledger)).toBe(text);
  die();
  await Dexie.delete(at.name);
  expect(await textOf((await open(at)).ledger)).toBe(text);
});

it('removes again for good what stands there once more, with nothing else to be taken back', async () => {
  const at = places();
  const { ledger, copy } = await open(at);
  const out = (await ledger.keep([reedDraft('K-9')], 'reed')).steps[0]!.after;
  await ledger.remove([out.id], 'bin');
  const before = await tablesOf(at.name);
  await ledger.purge([out.id]);
  await copy!.mirroring.flush();
  die();
  await putBack(at.name, before);

  const again = await open(at);
  expect((await again.ledger.readWhole()).documents).toEqual([]);
  expect(again.broughtBack).toEqual([]);
  die();
  // And it is remembered, for the day on which the database is lost.
  await Dexie.delete(at.name);
  expect((await (await open(at)).ledger.readWhole()).documents).toEqual([]);
});

it.each(['all', 'the end'])(
  'takes %s back at a later opening when the browser dies over the first',
  async (lost) => {
    const at = places();
    const { ledger, copy } = await open(at);
    const { before, text } = await grown(ledger, at.name);
    await copy!.mirroring.flush();
    const late = (await ledger.keep([reedDraft('K-2')], 'reed')).steps[0]!.after;
    die();
    if (lost === 'all') await Dexie.delete(at.name);
    else await putBack(at.name, before);

    const broken = (mirror: Mirror): Mirror => ({
      ...mirror,
      // oxlint-disable-next-line require-yield -- the browser dies before the first portion
      portions: async function* () {
        throw new Error('died');
      },
    });
    await open({ ...at, change: broken });
    expect((await opened!.ledger.get(late.id))?.id, 'the journal’s').toBe(late.id);
    die();
    const { ledger: whole } = await open(at);
    await whole.remove([late.id], 'out of the way');
    await whole.purge([late.id]);
    expect(libraryText({ ...(await whole.readWhole()), gone: [] })).toBe(text);
  },
);

it('does not take the name of a piece that was never whole for the piece', async () => {
  const at = places();
  const { ledger, copy } = await open(at);
  const { before } = await grown(ledger, at.name);
  await copy!.mirroring.flush();
  const text = libraryText(await ledger.readWhole());
  const folder = await (await at.root.getDirectoryHandle('second-copy')).getDirectoryHandle(ledger.deviceId);
  const last = (await namesIn(folder)).at(-1)!;
  await at.journal.append(text);
  await writeFile(folder, last, new Uint8Array());
  die();

  await open(at);
  expect(await at.journal.left()).toEqual([]);
  die();
  await putBack(at.name, before);
  expect(await textOf((await open(at)).ledger)).toBe(text);
});

it('goes on keeping after a file with counts beyond all that a device can have made', async () => {
  const at = places();
  const { ledger } = await open(at);
  const reed = (await ledger.keep([reedDraft('K-1')], 'reed')).steps[0]!.after;
  const round = (await ledger.keep([roundDraft(reed.id)], 'round')).steps[0]!.after.id;
  const act = await ledger.appendAct({ act: 'noted', roundId: round, text: 'one' });
  const odd = {
    documents: [{ ...reed, versions: { ...reed.versions, [ledger.deviceId]: Number.MAX_SAFE_INTEGER } }],
    acts: [{ ...act, id: ledger.newId(), seq: Number.MAX_SAFE_INTEGER }],
  };
  await ledger.merge(odd);
  const now = (await ledger.get(reed.id)) as typeof reed;
  await ledger.keep([{ ...now, note: 'on' } as typeof reed], 'note');
  expect(await ledger.get(reed.id)).toMatchObject({ note: 'on' });
  expect((await ledger.appendAct({ act: 'noted', roundId: round, text: 'two' })).seq).toBe(2);
});
