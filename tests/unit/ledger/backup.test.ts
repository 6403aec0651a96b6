import { strToU8, unzipSync, zipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FormatError } from '../../../shared/errors.ts';
import type { Id } from '../../../shared/ids.ts';
import { writeBundle } from '../../../src/ledger/bundle/write.ts';
import { libraryTextParts, readLibraryText } from '../../../src/ledger/library-file.ts';
import type { Ledger } from '../../../src/ledger/ledger-face.ts';
import type { Holdings } from '../../../src/ledger/merge.ts';
import { sha256 } from '../../../src/ledger/sha256.ts';
import { slicesOf } from '../../../src/ledger/slices.ts';
import type { WholeLibrary } from '../../../src/ledger/whole-library.ts';
import { openTestLedger, reedDraft, roundDraft } from './open-test-ledger.ts';
import { EMPTY, idOf, notesOf, reedOf, threeLibraries } from './random-libraries.ts';
import { libraryText, readBackup } from '../../whole-library.ts';

/** The signature of a PNG file and some bytes: enough of a picture for the ledger. */
const PICTURE = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

async function filledLedger(): Promise<Ledger> {
  const ledger = await openTestLedger();
  const { steps } = await ledger.keep([reedDraft('M-1'), reedDraft('M-2')], 'New reeds');
  const reedId = steps[0]!.after.id;
  const round = (await ledger.keep([roundDraft(reedId)], 'Round')).steps[0]!.after;
  await ledger.appendAct({ act: 'noted', roundId: round.id, text: 'wet' });
  await ledger.keepPhoto({ of: reedId, note: 'tip' }, PICTURE, 'Photo');
  await ledger.remove([steps[1]!.after.id], 'To the bin');
  return ledger;
}

const bundleOf = async (ledger: Ledger) => writeBundle(await ledger.readWhole());

const faultOf = async (work: Promise<unknown>): Promise<FormatError> => {
  const error = await work.catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(FormatError);
  return error as FormatError;
};

it('writes the same bytes again after export, import into an empty library, and export', async () => {
  const first = await filledLedger();
  const bytes = await bundleOf(first);
  const second = await openTestLedger();
  const report = await second.merge(await readBackup(bytes));
  expect(report.documents).toEqual({ new: 4, newer: 0, same: 0, apart: 0 });
  expect(report.acts).toEqual({ new: 1, same: 0 });
  expect(await bundleOf(second)).toEqual(bytes);
  const [photo] = await second.documents('photo');
  expect(await second.photoBytes(photo!.sha256)).toEqual(PICTURE);
  first.close();
  second.close();
});

it('writes a library file portion by portion that reads as the whole one, and stops where nothing could read it', async () => {
  async function* portions(whole: Holdings): AsyncGenerator<Holdings> {
    for (const documents of slicesOf(whole.documents, 3)) yield { documents, acts: [] };
    for (const acts of slicesOf(whole.acts, 2)) yield { documents: [], acts };
    yield { documents: [], acts: [], gone: [{ id: idOf(9), versions: { [idOf(1)]: 2 }, at: AT }] };
  }
  const AT = '2026-03-01T09:00:00+01:00';
  await fc.assert(
    fc.asyncProperty(threeLibraries, async ([library]) => {
      let text = '';
      for await (const part of libraryTextParts(portions(library))) text += part;
      const { gone, ...read } = await readLibraryText(text);
      expect(libraryText(read)).toBe(libraryText(library));
      expect(gone).toHaveLength(1);
    }),
    { numRuns: 50, seed: 7 },
  );
  async function* endless(): AsyncGenerator<Holdings> {
    for (;;) yield { documents: [reedOf(1, {}, 'x'.repeat(1e6))], acts: [] };
  }
  const drain = async () => {
    for await (const part of libraryTextParts(endless())) void part;
  };
  await expect(drain()).rejects.toThrow(/nothing could read it again/);
});

it('writes the same text again for any library, in whatever order it is held', async () => {
  await fc.assert(
    fc.asyncProperty(threeLibraries, async ([library]) => {
      const text = libraryText(library);
      expect(libraryText(await readLibraryText(text))).toBe(text);
      const reversed = { documents: [...library.documents].reverse(), acts: [...library.acts].reverse() };
      expect(libraryText(reversed)).toBe(text);
    }),
    { numRuns: 100, seed: 6 },
  );
});

it('says what a merge would do without doing it', async () => {
  const [first, second] = [await filledLedger(), await openTestLedger()];
  const backup = await readBackup(await bundleOf(first));
  expect((await second.compare(backup)).documents.new).toBe(4);
  expect((await second.readWhole()).documents).toEqual([]);
  await second.merge(backup);
  expect((await second.compare(backup)).documents).toEqual({ new: 0, newer: 0, same: 4, apart: 0 });
  first.close();
  second.close();
});

it('keeps both sides of a document that was changed on two devices, until one is chosen', async () => {
  const [laptop, tablet] = [await filledLedger(), await openTestLedger()];
  await tablet.merge(await laptop.readWhole());
  const [reed] = await laptop.documents('reed');
  await laptop.keep([{ ...reed!, note: 'laptop' }], 'Note');
  await tablet.keep([{ ...reed!, note: 'tablet' }], 'Note');
  expect((await laptop.merge(await tablet.readWhole())).documents.apart).toBe(1);
  await tablet.merge(await laptop.readWhole());
  const [here, there] = [await laptop.read(), await tablet.read()];
  expect(here.disagreements.flatMap(notesOf).sort()).toEqual(['laptop', 'tablet']);
  expect(there.disagreements).toEqual(here.disagreements);
  const chosen = here.disagreements[0]!.find((side) => notesOf([side])[0] === 'tablet')!;
  await laptop.settle(chosen, here.disagreements[0]!, 'Settled');
  expect((await laptop.read()).disagreements).toEqual([]);
  await tablet.merge(await laptop.readWhole());
  expect((await tablet.read()).disagreements).toEqual([]);
  expect(await tablet.documents('reed')).toMatchObject([{ note: 'tablet' }]);
  expect(libraryText(await tablet.readWhole())).toBe(libraryText(await laptop.readWhole()));
  laptop.close();
  tablet.close();
});

it('lets one side of a disagreement be written on without losing the other', async () => {
  const ledger = await openTestLedger();
  const device: Id = ledger.deviceId;
  const sides = [reedOf(1, { [device]: 5 }, 'here'), reedOf(1, { [device]: 4, [idOf(901)]: 1 }, 'there')];
  await ledger.merge({ ...EMPTY, documents: sides });
  await ledger.keep([{ ...sides[1]!, note: 'there, and on' } as (typeof sides)[1]], 'Note');
  const { disagreements } = await ledger.read();
  expect(disagreements.flatMap(notesOf).sort()).toEqual(['here', 'there, and on']);
  ledger.close();
});

it('sets an unreadable record aside, carries it in a bundle, and takes it up elsewhere', async () => {
  const ledger = await openTestLedger();
  const record = { ...reedOf(7, { [idOf(900)]: 1 }, ''), formatVersion: 99 };
  const setAside = [{ of: 'documents' as const, id: record.id, reason: '', record }];
  await ledger.merge({ ...EMPTY, setAside });
  await ledger.merge({ ...EMPTY, setAside });
  const read = await ledger.read();
  expect(read.setAside).toEqual([
    { of: 'documents', id: record.id, reason: 'It was made by a newer version of the bench.', record },
  ]);
  const other = await openTestLedger();
  await other.merge(await readBackup(await bundleOf(ledger)));
  expect((await other.read()).setAside).toEqual(read.setAside);
  ledger.close();
  other.close();
});

describe('a bundle that was tampered with', () => {
  async function rezipped(change: (files: Record<string, Uint8Array>) => void): Promise<Uint8Array> {
    const ledger = await filledLedger();
    const files = unzipSync(await bundleOf(ledger));
    ledger.close();
    change(files);
    return zipSync(files);
  }

  it('is refused when an entry is not as it was packed', async () => {
    const bytes = await rezipped((files) => (files['records/000001.json'] = strToU8('{}')));
    expect((await faultOf(readBackup(bytes))).message).toContain(
      'records/000001.json: The entry is not as it was packed',
    );
  });

  it('is refused when an entry is missing', async () => {
    const bytes = await rezipped((files) => delete files['manifest.json']);
    expect((await faultOf(readBackup(bytes))).problems[0]!.where).toBe('manifest.json');
  });

  it.each(['../evil.json', '/etc/passwd', 'pictures/../../evil', 'notes.txt'])(
    'is refused with an entry %s',
    async (name) => {
      const bytes = await rezipped((files) => (files[name] = strToU8('x')));
      expect((await faultOf(readBackup(bytes))).problems[0]!.where).toBe(name);
    },
  );

  it('is refused when it would unpack to far more than its size', async () => {
    const bytes = await rezipped((files) => (files['records/000001.json'] = new Uint8Array(30e6)));
    expect((await faultOf(readBackup(bytes))).message).toContain('unpack to more than any library holds');
  });

  it('is refused when it is cut off anywhere', async () => {
    const whole = await rezipped(() => undefined);
    for (let length = 0; length < whole.length; length += 97)
      await faultOf(readBackup(whole.slice(0, length)));
  });
});

it('names the picture whose bytes are no picture', async () => {
  const bytes = strToU8('<svg onload="alert(1)"/>');
  const hash = await sha256(bytes);
  const whole: WholeLibrary = { ...EMPTY, setAside: [], attachments: [{ sha256: hash, bytes }] };
  const fault = await faultOf(readBackup(await writeBundle(whole)));
  expect(fault.problems).toEqual([
    { where: `pictures/${hash}`, what: 'It is no JPEG, PNG or WebP picture.' },
  ]);
});

it('refuses a whole file for one bad document, and writes nothing of it', async () => {
  const text = libraryText({
    documents: [reedOf(1, { [idOf(900)]: 1 }, ''), reedOf(2, { [idOf(900)]: 1 }, '')],
    acts: [],
  });
  const bad = text.replace('"label":"M-2"', '"label":7');
  const fault = await faultOf(readLibraryText(bad));
  expect(fault.problems).toHaveLength(1);
  expect(fault.problems[0]!.where).toBe('documents.1.label');
});

it.each([
  ['{"a":', 'cut off'],
  ['[[[[[[[[[[[[[[[[[[[[[[', 'nested 22 deep'],
  ['{"__proto__": {"a": 1}}', '__proto__'],
  ['{"format":"hundredths-library","formatVersion":2,"documents":[],"acts":[]}', 'newer version'],
  ['{"format":"hundredths-library","formatVersion":1,"documents":{},"acts":[]}', 'documents'],
  ['null', 'file'],
])('refuses %s in words', async (text, words) => {
  expect((await faultOf(readLibraryText(text))).message).toContain(words);
});

it('can be cancelled between slices', async () => {
  const documents = Array.from({ length: 500 }, (_, i) => reedOf(i, { [idOf(900)]: 1 }, ''));
  const text = libraryText({ documents, acts: [] });
  const stop = new AbortController();
  const shares: number[] = [];
  const onProgress = (share: number) => {
    shares.push(share);
    if (share > 0) stop.abort(new Error('cancelled'));
  };
  await expect(readLibraryText(text, { signal: stop.signal, onProgress })).rejects.toThrow('cancelled');
  expect(shares).toEqual([0, 0.4]);
});

it('tells how far it is over documents and acts together, never backwards', async () => {
  const documents = Array.from({ length: 300 }, (_, i) => reedOf(i, { [idOf(900)]: 1 }, ''));
  const [act] = (await (await filledLedger()).readWhole()).acts;
  const acts = Array.from({ length: 300 }, (_, i) => ({ ...act!, seq: i + 1 }));
  const shares: number[] = [];
  await readLibraryText(libraryText({ documents, acts }), { onProgress: (share) => shares.push(share) });
  expect(shares).toEqual([0, 200 / 600, 300 / 600, 500 / 600]);
});
