import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { expect, it } from 'vitest';
import { LibraryStore } from '../../../components/store/library-store.ts';
import type { Step } from '../../../src/ledger/drafts.ts';
import type { StorageError } from '../../../src/ledger/errors.ts';
import { openMirror } from '../../../src/ledger/mirror/mirror.ts';
import { openLibrary } from '../../../src/ledger/open-library.ts';
import { rescueFile } from '../../../src/ledger/rescue.ts';
import { memoryJournal } from './memory-journal.ts';
import { MemoryFolder } from './memory-folder.ts';
import {
  freshName,
  openTestLedger,
  reedDraft,
  roundDraft,
  seededBytes,
  tickingClock,
} from './open-test-ledger.ts';
import { readBackup } from '../../whole-library.ts';

async function shown(root: MemoryFolder, journal = memoryJournal()) {
  const options = { name: freshName(), clock: tickingClock(), random: seededBytes(9000) };
  const opened = await openLibrary(options, { openMirror: () => openMirror(root), journal });
  const { ledger, copy, copyTroubles } = opened;
  await copy?.mirroring.flush();
  return { ...opened, store: await LibraryStore.over(ledger, copy, { copyTroubles }) };
}

it('says that it is kept once only when the journal takes no more, and all kept when it does again', async () => {
  let full: string | undefined;
  const journal = { ...memoryJournal(), trouble: () => full };
  const { store, ledger, copy } = await shown(new MemoryFolder(), journal);
  await store.keep([reedDraft('K-1')], 'reed');
  expect(store.keeping).not.toHaveProperty('once');
  full = 'The space for this page is used up.';
  await store.keep([reedDraft('K-2')], 'reed');
  expect(store.keeping).toMatchObject({ state: 'kept', once: true });
  full = undefined;
  await store.keep([reedDraft('K-3')], 'reed');
  expect(store.keeping).not.toHaveProperty('once');
  await copy!.mirroring.stop();
  ledger.close();
});

it('says first that a change is being kept, and that the library is another once it is', async () => {
  const { store, ledger, copy } = await shown(new MemoryFolder());
  const heard: string[] = [];
  for (const name of ['bench-library-keeping', 'bench-library-change'])
    store.addEventListener(name, () => heard.push(`${name}: ${store.keeping.state}, ${store.reeds.length}`));
  await store.keep([reedDraft('K-1')], 'reed');
  expect(heard).toEqual(['bench-library-keeping: keeping, 0', 'bench-library-change: kept, 1']);
  await copy!.mirroring.stop();
  ledger.close();
});

it('says that it is kept once only as soon as the second copy cannot be written', async () => {
  const root = new MemoryFolder();
  const { store, ledger, copy } = await shown(root);
  await store.keep([reedDraft('K-1')], 'reed');
  const folder = root.folders.get('second-copy')!.folders.get(ledger.deviceId)!;
  folder.full = true;
  let told = 0;
  store.addEventListener('bench-library-change', () => told++);
  await copy!.mirroring.flush();
  expect(store.keeping).toMatchObject({ state: 'kept', once: true });
  expect(told).toBe(1);
  folder.full = false;
  await copy!.mirroring.flush();
  expect(store.keeping).not.toHaveProperty('once');
  expect(told).toBe(2);
  await copy!.mirroring.stop();
  ledger.close();
});

it('says why when the second copy could not even be looked for, and opens the library all the same', async () => {
  const options = { name: freshName(), clock: tickingClock(), random: seededBytes(9001) };
  const broken = () => Promise.reject(new Error('the folder does not open'));
  const { ledger, copyTroubles } = await openLibrary(options, { openMirror: broken });
  expect(copyTroubles()).toMatchObject([
    { of: 'second copy', cause: { message: 'the folder does not open' } },
  ]);
  const store = await LibraryStore.over(ledger, undefined, { copyTroubles });
  expect(store.keeping).toMatchObject({ state: 'kept', once: true });
  ledger.close();
});

it('goes on with its own copy when those of others cannot be read, and says so', async () => {
  const root = new MemoryFolder();
  const options = { name: freshName(), clock: tickingClock(), random: seededBytes(9002) };
  const openOne = async () => {
    const mirror = await openMirror(root);
    return { ...mirror, devices: () => Promise.reject(new Error('no names')) };
  };
  const { ledger, copy, copyTroubles } = await openLibrary(options, { openMirror: openOne });
  expect(copyTroubles()).toMatchObject([{ of: 'second copy' }]);
  void copy;
  ledger.close();
});

it('knows a database that was cleared away under it, says so at once, and gives out what it still holds', async () => {
  const name = freshName();
  const ledger = await openTestLedger({ name });
  const store = await LibraryStore.over(ledger);
  await store.keep([reedDraft('K-1'), reedDraft('K-2')], 'reeds');
  const [{ after: round }] = (await ledger.keep([roundDraft(store.reeds[0]!.id)], 'round')).steps as [Step];
  await store.refresh();
  const type = (text: string) => ledger.appendAct({ act: 'noted', roundId: round.id, text });
  await type('kept');
  await Dexie.delete(name);
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(store.trouble?.words).toContain('cleared away everything');
  expect(store.trouble).toMatchObject({
    grave: true,
    stays: true,
    act: { words: 'Save what is still here' },
  });
  expect(store.keeping).toEqual({ state: 'trouble' });
  const error = await ledger.keep([reedDraft('K-3')], 'reed').catch((thrown: unknown) => thrown);
  expect((error as StorageError).trouble).toBe('gone');
  expect(await store.keep([reedDraft('K-3')], 'reed')).toBe(false);
  expect(store.trouble?.act?.words).toBe('Save what is still here');
  // What is typed at that very moment is still in the window.
  await expect(type('typed')).rejects.toThrow();
  const file = await rescueFile(store.snapshot, store.readings.held(), ledger.heldActs());
  const back = await readBackup(file);
  expect(back.documents.flatMap((one) => ('label' in one ? one.label : []))).toEqual(['K-1', 'K-2']);
  expect(back.documents).toContainEqual(round);
  const bySeq = [...back.acts].sort((a, b) => a.seq - b.seq);
  expect(bySeq.map((act) => act.act === 'noted' && act.text)).toEqual(['kept', 'typed']);
  ledger.close();
});
