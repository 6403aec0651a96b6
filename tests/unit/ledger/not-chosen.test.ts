import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { expect, it } from 'vitest';
import type { LibraryDocument } from '../../../shared/library.ts';
import { writeBundle } from '../../../src/ledger/bundle/write.ts';
import { openHistory } from '../../../src/ledger/history.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import { readLibraryText } from '../../../src/ledger/library-file.ts';
import { recoverable } from '../../../src/ledger/takeable.ts';
import { freshName, openTestLedger, reedDraft } from './open-test-ledger.ts';
import { libraryText, readBackup } from '../../whole-library.ts';

const note = (document: LibraryDocument | undefined) => document?.kind === 'reed' && document.note;

/** A reed of which two devices say different things. */
async function disagreement(name = freshName()) {
  const ledger = await openTestLedger({ name });
  const reed = (await ledger.keep([{ ...reedDraft('K-1'), note: 'first' }], 'reed')).steps[0]!.after;
  const there = {
    ...reed,
    note: 'there',
    versions: { ...reed.versions, [ledger.newId()]: 1 },
  } as typeof reed;
  const here = (await ledger.keep([{ ...reed, note: 'here' } as typeof reed], 'note')).steps[0]!.after;
  await ledger.merge({ documents: [there], acts: [] });
  const sides = (await ledger.read()).disagreements[0]!;
  return { ledger, here, there, sides };
}

/** What can be taken of a library, in notes. */
async function notesOf(ledger: Ledger) {
  return recoverable(await ledger.notChosen(), await ledger.read(), []).map(({ one }) => note(one.side));
}

it('keeps the side that was not chosen, to be taken instead, and back again', async () => {
  const { ledger, here, sides } = await disagreement();
  const history = openHistory(ledger);
  await history.settle(here, sides, 'here');
  expect(await notesOf(ledger)).toEqual(['there']);
  const [{ one, now }] = recoverable(await ledger.notChosen(), await ledger.read(), []) as [
    ReturnType<typeof recoverable>[0],
  ];
  await history.settle(one.side, now, 'there');
  expect(note(await ledger.get(here.id))).toBe('there');
  expect((await ledger.read()).disagreements).toEqual([]);
  expect(await notesOf(ledger)).toEqual(['here']);
  await history.undo();
  expect(note(await ledger.get(here.id))).toBe('here');
  expect(await notesOf(ledger)).toEqual(['there']);
  await history.undo();
  await history.redo();
  expect(await notesOf(ledger)).toEqual(['there']);
  ledger.close();
});

it('offers nothing of what is in the bin, and lets it go with what is removed for good', async () => {
  const { ledger, here, sides } = await disagreement();
  await ledger.settle(here, sides, 'here');
  await ledger.remove([here.id], 'bin');
  expect(await notesOf(ledger)).toEqual([]);
  await ledger.restore([here.id], 'back');
  expect(await notesOf(ledger)).toEqual(['there']);
  await ledger.remove([here.id], 'bin');
  await ledger.purge([here.id]);
  expect(await ledger.notChosen()).toEqual([]);
  ledger.close();
});

it('goes into the file of the library and comes back identical, and a second time adds nothing', async () => {
  const { ledger, here, sides } = await disagreement();
  await ledger.settle(here, sides, 'here');
  const whole = await ledger.readWhole();
  const text = libraryText(whole);
  expect(JSON.parse(text)).toHaveProperty('notChosen.length', 2);
  expect(libraryText(await readLibraryText(text))).toBe(text);
  const bytes = await writeBundle(whole);
  const other = await openTestLedger();
  for (let time = 0; time < 2; time++) await other.merge(await readBackup(bytes));
  expect(libraryText(await other.readWhole())).toBe(text);
  expect(await writeBundle(await other.readWhole())).toEqual(bytes);
  expect(await notesOf(other)).toEqual(['there']);
  for (const one of [ledger, other]) one.close();
});

it('names the place of one that is not sound, and takes nothing in then', async () => {
  const { ledger, here, sides } = await disagreement();
  await ledger.settle(here, sides, 'here');
  const file = JSON.parse(libraryText(await ledger.readWhole())) as {
    notChosen: { side: { label: unknown } }[];
  };
  file.notChosen[1]!.side.label = 7;
  await expect(readLibraryText(JSON.stringify(file))).rejects.toThrow(/^notChosen\.1\.side\.label: /);
  ledger.close();
});

it('shows one that an earlier program kept, and sets one aside that cannot be read', async () => {
  const name = freshName();
  const { ledger, here, there, sides } = await disagreement(name);
  await ledger.settle(here, sides, 'here');
  const raw = await new Dexie(name).open();
  await raw.table('copies').clear();
  await raw.table('copies').bulkAdd([
    { why: 'settled', record: there },
    { why: 'settled', at: there.updatedAt, record: { ...there, label: 7 } },
  ]);
  raw.close();
  expect(await ledger.notChosen()).toEqual([{ at: there.updatedAt, side: there }]);
  const whole = await ledger.readWhole();
  expect(whole.setAside).toMatchObject([{ of: 'notChosen', id: there.id }]);
  const other = await openTestLedger();
  for (let time = 0; time < 2; time++) await other.merge(await readBackup(await writeBundle(whole)));
  expect((await other.readWhole()).setAside).toEqual(whole.setAside);
  for (const one of [ledger, other]) one.close();
});
