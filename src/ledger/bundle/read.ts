import * as z from 'zod';
import { FormatError } from '../../../shared/errors.ts';
import { parseBoundedJson } from '../bounded-json.ts';
import { NewerFormatError } from '../errors.ts';
import { readLibraryText } from '../library-file.ts';
import { mediaTypeOf } from '../photos.ts';
import { rest, within, type ProgressOptions } from '../patience.ts';
import { sha256 } from '../sha256.ts';
import { NOTHING, type WholeLibrary } from '../whole-library.ts';
import {
  LIBRARY,
  MANIFEST,
  manifestSchema,
  MAX_ENTRIES,
  MAX_ENTRY_BYTES,
  MAX_LIBRARY_BYTES,
  PICTURE,
  RECORDS,
  refuse,
  SET_ASIDE,
  setAsideSchema,
  type Manifest,
} from './manifest.ts';
import { openZip, type ZipEntry } from './read-zip.ts';

/** Judges each entry by what the directory declares, before anything is inflated. */
function checkEntries(entries: readonly ZipEntry[]): ReadonlyMap<string, ZipEntry> {
  if (entries.length > MAX_ENTRIES) throw refuse('file', `It has more than ${MAX_ENTRIES} entries.`);
  const byName = new Map<string, ZipEntry>();
  for (const entry of entries) {
    const { name, bytes } = entry;
    if (![LIBRARY, MANIFEST, SET_ASIDE].includes(name) && !PICTURE.test(name) && !RECORDS.test(name))
      throw refuse(name.slice(0, 100), 'A bundle has no such entry.');
    if (byName.has(name)) throw refuse(name, 'The entry is there twice.');
    if (bytes > (name === LIBRARY ? MAX_LIBRARY_BYTES : MAX_ENTRY_BYTES))
      throw refuse(name, 'It would unpack to more than any library holds.');
    byName.set(name, entry);
  }
  return byName;
}

export function decode(where: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    throw refuse(where, 'This is neither a bundle nor a library file of the bench.', error);
  }
}

function parseEntry<T>(name: string, bytes: Uint8Array, schema: z.ZodType<T>): T {
  const parsed = parseBoundedJson(decode(name, bytes), { maxChars: MAX_ENTRY_BYTES, maxDepth: 24 });
  const { success, data, error } = schema.safeParse(parsed);
  if (success) return data;
  throw new FormatError(
    error.issues
      .slice(0, 50)
      .map(({ path, message }) => ({ where: [name, ...path].map(String).join('.'), what: message })),
  );
}

const NEWER = z.looseObject({ format: z.literal('hundredths-bundle'), formatVersion: z.int().min(3) });

async function manifestOf(byName: ReadonlyMap<string, ZipEntry>): Promise<Manifest> {
  const entry = byName.get(MANIFEST);
  if (!entry)
    throw refuse(MANIFEST, 'The entry is missing: this is no bundle of the bench, or it is damaged.');
  const bytes = await entry.read();
  if (NEWER.safeParse(parseEntry(MANIFEST, bytes, z.unknown())).success) {
    const what = 'It was made by a newer version of the bench. Reload the page to get the newer version.';
    throw new NewerFormatError([{ where: MANIFEST, what }]);
  }
  return parseEntry(MANIFEST, bytes, manifestSchema);
}

/** Every entry is one that was packed, none missing, none added. */
function checkNames(byName: ReadonlyMap<string, ZipEntry>, entries: Manifest['entries']): void {
  const listed = new Set(entries.map(({ name }) => name));
  for (const name of byName.keys())
    if (name !== MANIFEST && !listed.has(name)) throw refuse(name, 'The entry is not in the manifest.');
  for (const { name } of entries)
    if (!byName.has(name))
      throw refuse(name, 'The entry is missing: the file is damaged. Take another copy of it.');
}

async function portionIn(name: string, bytes: Uint8Array, patience: ProgressOptions): Promise<WholeLibrary> {
  if (name === SET_ASIDE) return { ...NOTHING, setAside: parseEntry(name, bytes, setAsideSchema) };
  const hash = PICTURE.exec(name)?.[1];
  if (hash === undefined) {
    const {
      documents,
      acts,
      notChosen = [],
      gone = [],
    } = await readLibraryText(decode(name, bytes), patience);
    return { ...NOTHING, documents, acts, notChosen, gone };
  }
  if (!mediaTypeOf(bytes)) throw refuse(name, 'It is no JPEG, PNG or WebP picture.');
  return { ...NOTHING, attachments: [{ sha256: hash, bytes }] };
}

interface OpenedBundle {
  readonly entries: Manifest['entries'];
  /** An entry as it was packed. @throws FormatError */
  readonly read: (entry: Manifest['entries'][number]) => Promise<Uint8Array>;
}

async function openBundle(file: Blob): Promise<OpenedBundle> {
  const byName = checkEntries(await openZip(file));
  const { entries } = await manifestOf(byName);
  checkNames(byName, entries);
  return {
    entries,
    async read({ name, bytes: size, sha256: hash }) {
      const bytes = (await byName.get(name)?.read()) ?? new Uint8Array();
      const own = await sha256(bytes);
      if (bytes.length !== size || own !== hash)
        throw refuse(
          name,
          'The entry is not as it was packed: the file is damaged. Take another copy of it.',
        );
      if (PICTURE.test(name) && !name.endsWith(own)) throw refuse(name, 'Its bytes do not match its name.');
      return bytes;
    },
  };
}

/** Reads a bundle to its end without judging its records: every entry is as it was packed. @throws FormatError */
export async function checkBundle(file: Blob, patience: ProgressOptions = {}): Promise<void> {
  const { entries, read } = await openBundle(file);
  for (const [i, entry] of entries.entries()) {
    await read(entry);
    await rest(patience, (i + 1) / entries.length);
  }
}

/**
 * Reads a bundle back, one portion after the other; no more than one is in memory. Sizes, names and hashes are checked
 * before anything in it is believed.
 *
 * @param onFault Hears of an entry that is not sound, and reading goes on after it. Left out, such an entry is thrown.
 * @throws FormatError naming the entry at fault; portions before it were sound.
 */
export async function* bundlePortions(
  file: Blob,
  patience: ProgressOptions = {},
  onFault?: (fault: FormatError) => void,
): AsyncGenerator<WholeLibrary> {
  const { entries, read } = await openBundle(file);
  const all = entries.reduce((sum, { bytes }) => sum + bytes, 1);
  let before = 0;
  for (const entry of entries) {
    try {
      yield await portionIn(entry.name, await read(entry), within(patience, before, entry.bytes, all));
    } catch (error) {
      if (!onFault || !(error instanceof FormatError)) throw error;
      onFault(error);
    }
    before += entry.bytes;
    await rest(patience, before / all);
  }
}

const ZIP_SIGNATURE = [0x50, 0x4b];

/** A backup of either kind, told by its first bytes, one portion after the other. @throws FormatError */
export async function* backupPortions(
  file: Blob,
  patience: ProgressOptions = {},
): AsyncGenerator<WholeLibrary> {
  const first = new Uint8Array(await file.slice(0, ZIP_SIGNATURE.length).arrayBuffer());
  if (ZIP_SIGNATURE.every((byte, i) => first[i] === byte)) {
    yield* bundlePortions(file, patience);
    return;
  }
  if (file.size > MAX_LIBRARY_BYTES) throw refuse('file', `It is larger than ${MAX_LIBRARY_BYTES / 1e6} MB.`);
  const text = decode('file', new Uint8Array(await file.arrayBuffer()));
  const { documents, acts, notChosen = [], gone = [] } = await readLibraryText(text, patience);
  yield { ...NOTHING, documents, acts, notChosen, gone };
}
