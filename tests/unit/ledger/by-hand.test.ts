import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../../../shared/errors.ts';
import { FORMAT_VERSION } from '../../../shared/stamp.ts';
import type { LibraryDocument } from '../../../shared/library.ts';
import { parseBoundedJson } from '../../../src/ledger/bounded-json.ts';
import { checkBundle } from '../../../src/ledger/bundle/read.ts';
import { countedKind, documentName } from '../../../src/ledger/document-words.ts';
import { removeEntry } from '../../../src/ledger/folder.ts';
import { readHealth } from '../../../src/ledger/health.ts';
import { readEntries } from '../../../src/ledger/journal/take-in.ts';
import { readLibraryText } from '../../../src/ledger/library-file.ts';
import { packReadings } from '../../../src/ledger/packed-readings.ts';
import { MemoryFolder } from './memory-folder.ts';

// What is shown of the library, word by word and number by number, as written by hand.

describe('room for the library', () => {
  const room = async (usage: number | undefined, quota: number | undefined) => {
    const estimate = async () => ({ ...(usage !== undefined && { usage }), ...(quota && { quota }) });
    const storage = { estimate, persist: async () => true, persisted: async () => false };
    return readHealth(storage, true);
  };

  it('is little under 20 MB, and under a tenth of what the browser gives', async () => {
    expect((await room(80e6, 100e6)).room).toBe('enough');
    expect((await room(80e6 + 1, 100e6)).room).toBe('little');
    expect((await room(900e6, 1000e6)).room).toBe('enough');
    expect((await room(900e6 + 1, 1000e6)).room).toBe('little');
  });

  it('is unknown where the browser says but one of both, or nothing', async () => {
    expect(await room(5, undefined)).toMatchObject({ room: 'unknown', usedBytes: 5, persisted: false });
    expect(await room(undefined, 5)).toMatchObject({ room: 'unknown', quotaBytes: 5 });
    expect(await room(undefined, undefined)).not.toHaveProperty('usedBytes');
    const none = await readHealth(undefined, false);
    expect(none).toMatchObject({ room: 'unknown', writable: false });
    expect(none).not.toHaveProperty('persisted');
  });
});

describe('documents in words', () => {
  it.each([
    ['reed', '1 reed', '2 reeds'],
    ['use', '1 playing', '2 playings'],
    ['air', '1 reading of the room', '2 readings of the room'],
    ['settings', '1 set of choices', '2 sets of choices'],
    ['floors', '1 table of floors', '2 tables of floors'],
    ['scrape-plan', '1 plan', '2 plans'],
  ] as const)('counts %s', (kind, one, two) => {
    expect([countedKind(kind, 1), countedKind(kind, 2)]).toEqual([one, two]);
  });

  const at = '2026-03-01T09:00:00+01:00';
  it.each([
    [{ kind: 'reed', label: 'K-117' }, 'K-117'],
    [{ kind: 'pass', reedId: 'k', index: 3 }, 'K-117, pass 3'],
    [{ kind: 'pass', reedId: 'x', index: 0 }, 'a reed that is gone, pass 0'],
    [{ kind: 'round', reedId: 'k', passIndex: 4 }, 'K-117, round of pass 4'],
    [{ kind: 'trial', reedId: 'k', playedAt: at }, 'K-117, trial of 2026-03-01'],
    [{ kind: 'use', reedId: 'k', at }, 'K-117, playing of 2026-03-01'],
    [{ kind: 'lot', code: 'C-4' }, 'lot C-4'],
    [{ kind: 'piece', number: 7 }, 'piece of cane 7'],
    [{ kind: 'gauge', name: 'Bench' }, 'gauge Bench'],
    [{ kind: 'air', at }, 'the room on 2026-03-01'],
    [{ kind: 'photo', of: 'k' }, 'K-117, a photograph'],
    [{ kind: 'photo', of: 'x' }, 'a photograph'],
    [{ kind: 'scrape-plan', reedId: 'k', afterPass: 2 }, 'K-117, plan after pass 2'],
    [{ kind: 'zones', styleId: 'long' }, 'zones of the long style'],
    [{ kind: 'habit', symptom: 'Flat above' }, 'habit: Flat above'],
    [{ kind: 'settings' }, 'the choices in Setup'],
  ])('names %o', (document, name) => {
    const labelOf = (id: string) => (id === 'k' ? 'K-117' : undefined);
    expect(documentName(document as unknown as LibraryDocument, labelOf)).toBe(name);
  });
});

describe('what is read back', () => {
  it('is refused beyond so many characters, and not one before', () => {
    const bounds = { maxChars: 2e6, maxDepth: 3 };
    const text = `"${'x'.repeat(2e6 - 2)}"`;
    expect(parseBoundedJson(text, bounds)).toHaveLength(2e6 - 2);
    expect(() => parseBoundedJson(`${text} `, bounds)).toThrow('It is longer than 2 million characters.');
    expect(parseBoundedJson('[[[1]]]', bounds)).toEqual([[[1]]]);
    expect(() => parseBoundedJson('[[[[1]]]]', bounds)).toThrow(FormatError);
  });

  it('has its first fifty problems told, each with its place', async () => {
    const documents = Array.from({ length: 60 }, () => ({ kind: 'nothing' }));
    const text = JSON.stringify({
      ...{ format: 'hundredths-library', formatVersion: FORMAT_VERSION },
      ...{ documents, acts: [] },
    });
    const refused = await readLibraryText(text).catch((error: unknown) => error);
    const problems = (refused as FormatError).problems;
    expect(problems).toHaveLength(50);
    expect(problems.map(({ where }) => where)).toEqual(
      documents.slice(0, 50).map((_, i) => `documents.${i}.kind`),
    );
  });

  it('is a bundle whose manifest says what is wrong in it, field by field', async () => {
    const manifest = strToU8(JSON.stringify({ format: 'hundredths-bundle', formatVersion: 2, entries: 3 }));
    const zip = zipSync({ 'manifest.json': manifest }, { level: 0 });
    const refused = await checkBundle(new Blob([zip as Uint8Array<ArrayBuffer>])).catch(
      (error: unknown) => error,
    );
    const where = (refused as FormatError).problems.map((problem) => problem.where);
    expect(where).toEqual(['manifest.json.entries']);
  });

  it('has a line of the journal that is damaged as a file, named by the first twelve digits of its hash', async () => {
    // SHA-256 of abc: FIPS 180-4, example of a one-block message.
    const { unreadable } = await readEntries(['abc']);
    expect(unreadable.map(({ what }) => what.name)).toEqual(['journal-ba7816bf8f01.txt']);
  });
});

describe('readings packed in columns', () => {
  const columns = (thicknesses: readonly number[]) =>
    JSON.parse(
      packReadings(
        thicknesses.map((thicknessMm, i) => ({
          ...{ blade: 'A', fromTipMm: i, across: 0, repeat: 0, role: 'station', flag: 'ok' },
          thicknessMm,
        })) as Parameters<typeof packReadings>[0],
      ),
    ).columns;

  it('say once what is the same, by place where it comes again, and each where half and more are their own', () => {
    const { blade, thicknessMm } = columns([0.4, 0.4, 0.5, 0.5]);
    expect(blade).toEqual({ all: 'A' });
    expect(thicknessMm).toEqual({ of: [0.4, 0.5], at: [0, 0, 1, 1] });
    expect(columns([0.4, 0.4, 0.5]).thicknessMm).toEqual({ each: [0.4, 0.4, 0.5] });
  });
});

it('an entry that is gone is as good as removed, and no other failure is', async () => {
  const folder = new MemoryFolder();
  await removeEntry(folder, 'none');
  folder.removeEntry = () => Promise.reject(new DOMException('Locked.', 'NoModificationAllowedError'));
  await expect(removeEntry(folder, 'any')).rejects.toThrow('Locked.');
});
