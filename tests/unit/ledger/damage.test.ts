import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { broughtBackNotice } from '../../../components/store/trouble.ts';
import { memorySink, writeBundle, writeBundles } from '../../../src/ledger/bundle/write.ts';
import { portionsOf } from '../../../src/ledger/bundle/portions.ts';
import { sealed } from '../../../src/ledger/journal/seal.ts';
import { readEntries } from '../../../src/ledger/journal/take-in.ts';
import { openMirror } from '../../../src/ledger/mirror/mirror.ts';
import { openLibrary, type OpenedLibrary } from '../../../src/ledger/open-library.ts';
import { NOTHING, type WholeLibrary } from '../../../src/ledger/whole-library.ts';
import { memoryJournal } from './memory-journal.ts';
import { MemoryFolder } from './memory-folder.ts';
import { freshName, reedDraft, seededBytes, tickingClock } from './open-test-ledger.ts';
import { idOf, reedOf } from './random-libraries.ts';
import { libraryText, readBackup } from '../../whole-library.ts';

let seed = 5000;
let opened: OpenedLibrary[] = [];
afterEach(async () => {
  for (const { ledger, copy } of opened) {
    await copy?.mirroring.stop();
    ledger.close();
  }
  opened = [];
});

async function open(name: string, root: MemoryFolder, journal = memoryJournal()): Promise<OpenedLibrary> {
  const options = { name, clock: tickingClock(), random: seededBytes(seed++) };
  const one = await openLibrary(options, { openMirror: () => openMirror(root), journal });
  await one.copy?.mirroring.flush();
  opened.push(one);
  return one;
}

/** The browser dies: what waits for the second copy never gets there. */
function die(): void {
  for (const { ledger } of opened) ledger.close();
  opened = [];
}

const PIECES = 4;

/** A library whose copy has four pieces of ten reeds each; then its database is lost. */
async function lostWithFourPieces() {
  const [name, root] = [freshName(), new MemoryFolder()];
  const { ledger, copy } = await open(name, root);
  for (let piece = 0; piece < PIECES; piece++) {
    await ledger.keep(
      Array.from({ length: 10 }, (_, i) => reedDraft(`K-${piece}${i}`)),
      'reeds',
    );
    await copy!.mirroring.flush();
  }
  const { files } = root.folders.get('second-copy')!.folders.get(ledger.deviceId)!;
  const pieces = [...files.keys()].sort().slice(-PIECES);
  die();
  await Dexie.delete(name);
  return { name, root, deviceId: ledger.deviceId, files, pieces };
}

/** What a piece written by a newer version of the bench looks like. */
function asNewer(bytes: Uint8Array): Uint8Array {
  const entries = unzipSync(bytes);
  const manifest = JSON.parse(new TextDecoder().decode(entries['manifest.json'])) as object;
  return zipSync({ ...entries, 'manifest.json': strToU8(JSON.stringify({ ...manifest, formatVersion: 9 })) });
}

const DAMAGES: Readonly<Record<string, (bytes: Uint8Array) => Uint8Array>> = {
  'one bit near the beginning': (bytes) => bytes.with(60, (bytes[60] ?? 0) ^ 1),
  'one bit in the middle': (bytes) => bytes.with(bytes.length >> 1, (bytes[bytes.length >> 1] ?? 0) ^ 16),
  'one bit near the end': (bytes) => bytes.with(bytes.length - 12, (bytes[bytes.length - 12] ?? 0) ^ 1),
  'one byte cut off': (bytes) => bytes.slice(0, -1),
  'half of it cut off': (bytes) => bytes.slice(0, bytes.length >> 1),
  'an entry beyond any size': (bytes) =>
    zipSync({ ...unzipSync(bytes), 'records/000001.json': new Uint8Array(16e6 + 1) }, { level: 1 }),
};

const cases = Object.keys(DAMAGES).flatMap((damage) =>
  Array.from({ length: PIECES }, (_, piece) => [damage, piece] as const),
);

describe('a damaged piece of the second copy, on the day it is needed', () => {
  it.each(cases)('%s of piece %i: is named and kept, and the rest comes back', async (damage, piece) => {
    const { name, root, files, pieces } = await lostWithFourPieces();
    const broken = pieces[piece]!;
    const bytes = DAMAGES[damage]!(files.get(broken)!);
    files.set(broken, bytes);
    const { ledger, copy, broughtBack } = await open(name, root);
    expect(await ledger.documents('reed')).toHaveLength(30);
    expect(broughtBack.flatMap((one) => one.unreadable)).toMatchObject([{ name: broken, why: 'damaged' }]);
    const { words, grave } = broughtBackNotice(broughtBack);
    expect(words).toContain('30 things. One piece of the second copy could not be read');
    expect(words).not.toContain('All of it');
    expect(grave).toBe(true);
    const aside = await copy!.setAside();
    expect(aside.map((one) => one.name)).toEqual([broken]);
    expect(new Uint8Array(await aside[0]!.file.arrayBuffer())).toEqual(bytes);
  });

  it.each([0, 1, 2, 3])(
    '%i stays where it is when a newer version of the bench has written it',
    async (at) => {
      const { name, root, deviceId, files, pieces } = await lostWithFourPieces();
      const newer = asNewer(files.get(pieces[at]!)!);
      files.set(pieces[at]!, newer);
      const { ledger, broughtBack } = await open(name, root);
      expect(await ledger.documents('reed')).toHaveLength(30);
      expect(broughtBackNotice(broughtBack).words).toContain('written by a newer version of the bench');
      const folder = root.folders.get('second-copy')!.folders.get(deviceId)!;
      expect(folder.files.get(pieces[at]!)).toEqual(newer);
    },
  );

  it('goes no more than any other while the disk is too full for the library’s own copy', async () => {
    const { name, root, deviceId, files, pieces } = await lostWithFourPieces();
    const folder = root.folders.get('second-copy')!;
    folder.full = true;
    const { ledger, copyTroubles } = await open(name, root);
    expect(await ledger.documents('reed')).toHaveLength(40);
    expect(copyTroubles()).toMatchObject([{ of: 'second copy', cause: { name: 'QuotaExceededError' } }]);
    expect([...files.keys()]).toEqual(expect.arrayContaining(pieces));
    // The database is lost once more, and there is room again.
    die();
    await Dexie.delete(name);
    folder.full = false;
    folder.folders.get(ledger.deviceId)!.full = false;
    const again = await open(name, root);
    expect(await again.ledger.documents('reed')).toHaveLength(40);
    expect(again.copyTroubles()).toEqual([]);
    expect(folder.folders.has(deviceId)).toBe(false);
  });

  it('is not thrown away when nothing else of the copy is missing', async () => {
    const { name, root, deviceId, files, pieces } = await lostWithFourPieces();
    const all = [...files];
    for (const [file] of all) if (file !== pieces[0]) files.delete(file);
    files.set(pieces[0]!, files.get(pieces[0]!)!.slice(0, -1));
    const { ledger, copy, broughtBack } = await open(name, root);
    expect(await ledger.documents('reed')).toEqual([]);
    expect(broughtBack.flatMap((one) => one.unreadable)).toHaveLength(1);
    expect(await copy!.setAside()).toHaveLength(1);
    expect(root.folders.get('second-copy')!.folders.has(deviceId)).toBe(false);
  });

  it('says that all came back when nothing is broken', async () => {
    const { name, root } = await lostWithFourPieces();
    const { broughtBack } = await open(name, root);
    expect(broughtBackNotice(broughtBack).words).toContain(
      'All of it was brought back from its second copy: 40 things.',
    );
  });
});

/** Three changes that only database and journal have; then the browser dies. */
async function threeChangesLeft() {
  const [name, root, lines] = [freshName(), new MemoryFolder(), [] as string[]];
  const { ledger } = await open(name, root, memoryJournal(lines));
  for (const label of ['K-ä1', 'K-ä2', 'K-ä3']) await ledger.keep([reedDraft(label)], 'reed');
  die();
  return { name, root, lines };
}

const flip = (line: string, at: number) => {
  const bytes = new TextEncoder().encode(line);
  return new TextDecoder().decode(bytes.with(at, bytes[at]! ^ 1));
};
const LINES: Readonly<Record<string, (line: string) => string>> = {
  'one bit of its seal': (line) => flip(line, 8),
  'one bit of a label': (line) => flip(line, new TextEncoder().encode(line.split('K-')[0]).length + 4),
  'one bit of a letter that is two bytes': (line) =>
    flip(line, new TextEncoder().encode(line.split('ä')[0]).length),
  'one bit at the end': (line) => flip(line, new TextEncoder().encode(line).length - 1),
};
const lineCases = Object.keys(LINES).flatMap((damage) => [0, 1, 2].map((at) => [damage, at] as const));

describe('a damaged line of the journal, on the day it is needed', () => {
  it.each(lineCases)(
    '%s of line %i: is kept as a file and told of, and the rest comes back',
    async (damage, at) => {
      const { name, root, lines } = await threeChangesLeft();
      const broken = LINES[damage]!(lines[at]!);
      lines[at] = broken;
      await Dexie.delete(name);
      const { ledger, copy, broughtBack } = await open(name, root, memoryJournal(lines));
      const labels = ['K-ä1', 'K-ä2', 'K-ä3'].filter((_, i) => i !== at);
      expect((await ledger.documents('reed')).map(({ label }) => label).sort()).toEqual(labels);
      const { words, grave } = broughtBackNotice(broughtBack);
      expect(words).toContain('2 things. One of the last changes could not be read in the journal');
      expect(grave).toBe(true);
      const [aside, ...others] = await copy!.setAside();
      expect(others).toEqual([]);
      expect(await aside!.file.text()).toBe(broken);
    },
  );

  it('is told of where the database has everything, and nothing is said to have been lost', async () => {
    const { name, root, lines } = await threeChangesLeft();
    lines[1] = flip(lines[1]!, 40);
    const { ledger, broughtBack } = await open(name, root, memoryJournal(lines));
    expect(await ledger.documents('reed')).toHaveLength(3);
    expect(broughtBackNotice(broughtBack).words).toBe(
      'One of the last changes could not be read in the journal, and may be missing: see Set aside in Setup.',
    );
  });

  it('whose length alone is wrong comes back', async () => {
    const { name, root, lines } = await threeChangesLeft();
    for (const [i, line] of lines.entries()) lines[i] = flip(line, i);
    await Dexie.delete(name);
    const { ledger, broughtBack } = await open(name, root, memoryJournal(lines));
    expect(await ledger.documents('reed')).toHaveLength(3);
    expect(broughtBackNotice(broughtBack).words).toContain('All of it was brought back');
  });

  it('that a newer version has written is kept as a file', async () => {
    const { name, root, lines } = await threeChangesLeft();
    const text = lines[2]!.slice(lines[2]!.indexOf('{'));
    const newer = await sealed(text.replace('"formatVersion":1', '"formatVersion":9'));
    lines[2] = newer;
    await Dexie.delete(name);
    const { ledger, copy } = await open(name, root, memoryJournal(lines));
    expect(await ledger.documents('reed')).toHaveLength(2);
    expect(await (await copy!.setAside())[0]!.file.text()).toBe(newer);
  });

  it('that was cut off anywhere was never called kept: the rest comes back, and nothing is told of it', async () => {
    const { name, root, lines } = await threeChangesLeft();
    const whole = lines[2]!;
    for (const share of [0.001, 0.01, 0.03, 0.3, 0.99]) {
      lines[2] = whole.slice(0, Math.max(1, Math.floor(share * whole.length)));
      const found = await readEntries(lines);
      expect(found.entries).toHaveLength(2);
      expect(found.unreadable).toEqual([]);
    }
    await Dexie.delete(name);
    const { broughtBack } = await open(name, root, memoryJournal(lines));
    expect(broughtBackNotice(broughtBack).words).toContain('All of it was brought back');
  });
});

describe('a piece that is not as it was written', () => {
  it('takes the place of no other', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const { ledger, copy } = await open(name, root);
    await ledger.keep([reedDraft('K-1')], 'reed');
    await copy!.mirroring.flush();
    const folder = root.folders.get('second-copy')!.folders.get(ledger.deviceId)!;
    const before = new Map(folder.files);
    await ledger.keep([reedDraft('K-2')], 'reed');
    folder.change = (bytes) => bytes.with(40, (bytes[40] ?? 0) ^ 1);
    await expect((await openMirror(root)).copy(ledger, 'all')).rejects.toThrow();
    for (const [piece, bytes] of before) expect(folder.files.get(piece)).toEqual(bytes);
  });
});

describe('what was removed for good', () => {
  it('stays removed when the browser dies at once, and nothing is said to have been lost', async () => {
    const [name, root, journal] = [freshName(), new MemoryFolder(), memoryJournal()];
    const { ledger, copy } = await open(name, root, journal);
    const [kept, out] = (await ledger.keep([reedDraft('K-1'), reedDraft('K-2')], 'reeds')).steps;
    await copy!.mirroring.flush();
    await ledger.keep(
      [{ ...kept!.after, note: 'n' } as never, { ...out!.after, note: 'n' } as never],
      'notes',
    );
    await ledger.remove([out!.after.id], 'bin');
    await ledger.purge([out!.after.id]);
    die();
    const again = await open(name, root, journal);
    expect(again.broughtBack).toEqual([]);
    expect((await again.ledger.documents('reed')).map(({ label }) => label)).toEqual(['K-1']);
    expect((await again.ledger.read()).deleted).toEqual([]);
  });

  it.each(['with the copy caught up', 'before the copy had it'])(
    'stays removed when the database is lost as well, %s',
    async (when) => {
      const [name, root, journal] = [freshName(), new MemoryFolder(), memoryJournal()];
      const { ledger, copy } = await open(name, root, journal);
      const [, out] = (await ledger.keep([reedDraft('K-1'), reedDraft('K-2')], 'reeds')).steps;
      await copy!.mirroring.flush();
      await ledger.remove([out!.after.id], 'bin');
      await ledger.purge([out!.after.id]);
      if (when === 'with the copy caught up') await copy!.mirroring.flush();
      die();
      await Dexie.delete(name);
      const again = await open(name, root, journal);
      expect((await again.ledger.documents('reed')).map(({ label }) => label)).toEqual(['K-1']);
      expect((await again.ledger.read()).deleted).toEqual([]);
    },
  );

  it('is not brought back by an older file, which leaves alone what another library has', async () => {
    const { ledger } = await open(freshName(), new MemoryFolder());
    const elsewhere = (await open(freshName(), new MemoryFolder())).ledger;
    const [out] = (await ledger.keep([reedDraft('K-1')], 'reed')).steps;
    const older = await ledger.readWhole();
    await elsewhere.merge(older);
    await ledger.remove([out!.after.id], 'bin');
    await ledger.purge([out!.after.id]);
    expect(await ledger.compare(older)).toMatchObject({ documents: { new: 0 }, gone: 1 });
    await ledger.merge(older);
    expect(await ledger.documents('reed')).toEqual([]);
    await elsewhere.merge(await ledger.readWhole());
    expect(await elsewhere.documents('reed')).toHaveLength(1);
    // What another device has written on since was never removed.
    const [there] = await elsewhere.documents('reed');
    await elsewhere.keep([{ ...there!, note: 'on' }], 'note');
    await ledger.merge(await elsewhere.readWhole());
    expect(await ledger.documents('reed')).toMatchObject([{ note: 'on' }]);
  });

  it('leaves the copy’s pieces with the next opening', async () => {
    const [name, root] = [freshName(), new MemoryFolder()];
    const { ledger, copy } = await open(name, root);
    const [out] = (await ledger.keep([reedDraft('K-77')], 'reed')).steps;
    await copy!.mirroring.flush();
    await ledger.remove([out!.after.id], 'bin');
    await ledger.purge([out!.after.id]);
    await copy!.mirroring.flush();
    die();
    await open(name, root);
    const { files } = root.folders.get('second-copy')!.folders.get(ledger.deviceId)!;
    const texts = [...files.values()].flatMap((bytes) =>
      Object.values(unzipSync(bytes)).map((entry) => new TextDecoder().decode(entry)),
    );
    expect(texts.join()).toContain(out!.after.id);
    expect(texts.join()).not.toContain('K-77');
  });
});

describe('a copy of any size', () => {
  it('of 100,001 things is read back', async () => {
    const documents = Array.from({ length: 100_001 }, (_, i) => reedOf(i, { [idOf(900)]: i + 1 }, ''));
    const whole: WholeLibrary = { ...NOTHING, documents };
    const back = await readBackup(await writeBundle(whole));
    expect(back.documents).toHaveLength(100_001);
  });

  it('is written in parts that are each readable alone, and together are the library', async () => {
    const documents = Array.from({ length: 2000 }, (_, i) =>
      reedOf(i, { [idOf(900)]: i + 1 }, `note ${i * 7919}`),
    );
    const picture = (i: number) => Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, i);
    const hash = async (bytes: Uint8Array<ArrayBuffer>) =>
      Buffer.from(await crypto.subtle.digest('SHA-256', bytes)).toString('hex');
    const attachments = await Promise.all(
      Array.from({ length: 30 }, async (_, i) => ({
        sha256: await hash(picture(i) as never),
        bytes: picture(i),
      })),
    );
    const whole: WholeLibrary = { ...NOTHING, documents, attachments };
    const sinks: ReturnType<typeof memorySink>[] = [];
    const shares: number[] = [];
    const parts = await writeBundles(
      { portions: portionsOf(whole), count: 38 },
      async () => {
        sinks.push(memorySink());
        return sinks.at(-1)!;
      },
      { maxBytes: 20_000, onProgress: (share) => shares.push(share) },
    );
    expect(parts).toBe(sinks.length);
    expect(parts).toBeGreaterThan(2);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
    const read = await Promise.all(sinks.map((sink) => readBackup(sink.bytes())));
    const back = { documents: read.flatMap((one) => one.documents).reverse(), acts: [] };
    expect(libraryText(back)).toBe(libraryText({ documents, acts: [] }));
    expect(read.flatMap((one) => one.attachments)).toHaveLength(30);
  });

  it('can be given up', async () => {
    const documents = Array.from({ length: 1000 }, (_, i) => reedOf(i, { [idOf(900)]: i + 1 }, ''));
    const stop = new AbortController();
    const work = writeBundles(
      { portions: portionsOf({ ...NOTHING, documents }), count: 4 },
      async () => memorySink(),
      { signal: stop.signal, onProgress: (share) => share >= 0.5 && stop.abort(new Error('given up')) },
    );
    await expect(work).rejects.toThrow('given up');
  });

  it('of the first kind is read as before', async () => {
    const { documents, acts, attachments, setAside, notChosen } = await readBackup(
      readFileSync('tests/unit/ledger/samples/bundle-1.zip'),
    );
    expect(documents.map(({ kind }) => kind)).toEqual(['reed', 'reed', 'pass']);
    expect(documents.find(({ kind }) => kind === 'pass')).toMatchObject({
      readings: [
        { thicknessMm: 0.45, flag: 'ok' },
        { flag: 'no-cane', extra: { Knife: 'two' } },
      ],
    });
    expect([acts.length, attachments.length, setAside.length, notChosen?.length]).toEqual([1, 1, 1, 1]);
  });
});
