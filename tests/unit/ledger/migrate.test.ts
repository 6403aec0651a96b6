import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { librarySchema, type Library } from '../../../shared/library.ts';
import { FORMAT_VERSION } from '../../../shared/stamp.ts';
import { readLibraryText } from '../../../src/ledger/library-file.ts';
import { migrateDocument, migrateLibrary } from '../../../src/ledger/migrate.ts';
import { freshName, openTestLedger } from './open-test-ledger.ts';

const SAMPLES = 'tests/unit/ledger/samples';
const sample = (name: string) => JSON.parse(readFileSync(`${SAMPLES}/${name}`, 'utf8')) as Library;

it('has a sample of every earlier format', () => {
  const samples = readdirSync(SAMPLES).filter((name) => /^format-\d+\.json$/.test(name));
  const formats = Array.from({ length: FORMAT_VERSION }, (_, format) => `format-${format}.json`);
  expect(samples.sort()).toEqual(formats);
});

it.each(Array.from({ length: FORMAT_VERSION }, (_, format) => format))(
  'brings a library of format %i to the present one',
  async (format) => {
    const now = sample(`format-${format}.now.json`);
    expect(migrateLibrary(sample(`format-${format}.json`))).toEqual(now);
    expect(librarySchema.parse(now)).toEqual(now);
    const text = readFileSync(`${SAMPLES}/format-${format}.json`, 'utf8');
    expect(await readLibraryText(text)).toEqual(now);
  },
);

it('leaves a document of the present or a later format alone', () => {
  const [document] = sample('format-0.now.json').documents;
  expect(migrateDocument(document)).toBe(document);
  const later = { ...document, formatVersion: 99 };
  expect(migrateDocument(later)).toBe(later);
});

/** A database as a program of format 0 left it. */
async function databaseOfFormat0(name: string, documents: readonly unknown[]): Promise<void> {
  const old = new Dexie(name);
  old.version(1).stores({ documents: '&id', acts: '&id, roundId', device: '&key' });
  await old.open();
  await old.table('documents').bulkAdd([...documents]);
  await old.table('device').add({ key: 'device', id: DEVICE, writes: 3, acts: 0 });
  old.close();
}

const DEVICE = '018f3a5c-0000-7000-8000-0000000000aa';

it('upgrades a stored library in place, keeps the old records as copies, and goes on counting', async () => {
  const name = freshName();
  const before = sample('format-0.json');
  await databaseOfFormat0(name, before.documents);
  const ledger = await openTestLedger({ name });
  const { live, deleted, setAside } = await ledger.read();
  const passes = await Promise.all(live.pass.map(({ id }) => ledger.get(id)));
  const stored = [...live.reed, ...passes, ...deleted];
  expect(stored).toEqual(sample('format-0.now.json').documents);
  expect(setAside).toEqual([]);
  const { steps } = await ledger.keep([{ ...live.reed[0]!, note: 'after' }], 'Note');
  const writes = Object.entries(steps[0]!.after.versions);
  expect(writes).toContainEqual([DEVICE, 3]);
  expect(writes.filter(([writer]) => writer !== DEVICE)).toMatchObject([[expect.anything(), 4]]);
  ledger.close();
  const raw = await new Dexie(name).open();
  const copies = (await raw.table<{ record: unknown }>('copies').toArray()).map(({ record }) => record);
  expect(copies).toEqual(before.documents);
  raw.close();
});

it('carries a record that it cannot read through the upgrade untouched', async () => {
  const name = freshName();
  const { documents } = sample('format-0.json');
  const broken = { id: '018f3a5c-0000-7000-8000-0000000000bb', kind: 'reed', rev: 'three' };
  await databaseOfFormat0(name, [...documents, broken]);
  const ledger = await openTestLedger({ name });
  const { live, setAside } = await ledger.read();
  expect(live.reed).toHaveLength(1);
  expect(setAside).toMatchObject([{ of: 'documents', id: broken.id, record: broken }]);
  ledger.close();
});
