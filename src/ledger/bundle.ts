import { strToU8, unzipSync, zipSync, type UnzipFileInfo, type Zippable } from 'fflate';
import * as z from 'zod';
import { FormatError } from '../../shared/errors.ts';
import { sha256Schema } from '../../shared/photo.ts';
import { parseBoundedJson } from './bounded-json.ts';
import { canonicalJson, compareText } from './canonical.ts';
import type { StoredAttachment } from './database.ts';
import { libraryText, readLibraryText } from './library-file.ts';
import { rest, within, type Patience } from './patience.ts';
import { mediaTypeOf } from './photos.ts';
import type { SetAside } from './rows.ts';
import { sha256 } from './sha256.ts';
import type { WholeLibrary } from './store-library.ts';

const LIBRARY = 'library.json';
const MANIFEST = 'manifest.json';
const SET_ASIDE = 'set-aside.json';
const PICTURE = /^pictures\/([0-9a-f]{64})$/;

/** Our own numbers, common practice. JSON shrinks about twentyfold at most, so a hundredfold is no library. */
const MAX_ENTRIES = 20_000;
const MAX_BYTES = 1e9;
const MAX_JSON_BYTES = 200e6;
const MAX_RATIO = 100;
const SMALL_BYTES = 1e6;

/** Zip keeps local times from 1980 on; a fixed one makes equal libraries equal files. */
const MTIME = new Date(1980, 0, 1);

const manifestSchema = z.strictObject({
  format: z.literal('hundredths-bundle'),
  formatVersion: z.literal(1),
  entries: z
    .array(z.strictObject({ name: z.string().max(100), bytes: z.int().min(0), sha256: sha256Schema }))
    .max(MAX_ENTRIES),
});

const setAsideSchema = z
  .array(
    z.strictObject({
      of: z.enum(['documents', 'acts', 'notChosen']),
      id: z.string().max(100),
      reason: z.string().max(1000),
      record: z.unknown(),
    }),
  )
  .max(MAX_ENTRIES);

const refuse = (where: string, what: string, cause?: unknown) =>
  new FormatError([{ where, what }], { cause });

/** A whole library with its pictures as one zip file. Equal libraries are equal files. */
export async function writeBundle(whole: WholeLibrary): Promise<Uint8Array> {
  const setAside = [...whole.setAside].sort((a, b) => compareText(canonicalJson(a), canonicalJson(b)));
  const pictures = [...whole.attachments].sort((a, b) => compareText(a.sha256, b.sha256));
  const files: [string, Uint8Array][] = [
    [LIBRARY, strToU8(libraryText(whole))],
    ...(setAside.length > 0 ? [[SET_ASIDE, strToU8(canonicalJson(setAside))] as [string, Uint8Array]] : []),
    ...pictures.map(({ sha256: hash, bytes }): [string, Uint8Array] => [`pictures/${hash}`, bytes]),
  ];
  const entries = await Promise.all(
    files.map(async ([name, bytes]) => ({ name, bytes: bytes.length, sha256: await sha256(bytes) })),
  );
  const manifest = canonicalJson({ format: 'hundredths-bundle', formatVersion: 1, entries });
  const zipped: Zippable = { [MANIFEST]: strToU8(manifest) };
  for (const [name, bytes] of files) zipped[name] = [bytes, { level: PICTURE.test(name) ? 0 : 6 }];
  return zipSync(zipped, { mtime: MTIME });
}

/** Judges each entry by what the directory declares, before anything is inflated. */
function makeGate(zipBytes: number): (info: UnzipFileInfo) => boolean {
  const seen = new Set<string>();
  let total = 0;
  return ({ name, originalSize }) => {
    if (![LIBRARY, MANIFEST, SET_ASIDE].includes(name) && !PICTURE.test(name)) {
      throw refuse(name.slice(0, 100), 'A bundle has no such entry.');
    }
    if (seen.has(name)) throw refuse(name, 'The entry is there twice.');
    seen.add(name);
    total += originalSize;
    if (seen.size > MAX_ENTRIES) throw refuse('file', `It has more than ${MAX_ENTRIES} entries.`);
    if (total > MAX_BYTES || total > Math.max(SMALL_BYTES, MAX_RATIO * zipBytes)) {
      throw refuse('file', 'It would unpack to more than any library holds.');
    }
    return true;
  };
}

function unzip(bytes: Uint8Array): Map<string, Uint8Array> {
  try {
    return new Map(Object.entries(unzipSync(bytes, { filter: makeGate(bytes.length) })));
  } catch (error) {
    if (error instanceof FormatError) throw error;
    throw refuse('file', 'This is no whole zip file: it may be cut off. Take another copy of it.', error);
  }
}

function decode(where: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    throw refuse(where, 'This is neither a bundle nor a library file of the bench.', error);
  }
}

function json(files: ReadonlyMap<string, Uint8Array>, name: string): string {
  const bytes = files.get(name);
  if (!bytes) throw refuse(name, 'The entry is missing: this is no bundle of the bench, or it is damaged.');
  return decode(name, bytes);
}

function parseEntry<T>(files: ReadonlyMap<string, Uint8Array>, name: string, schema: z.ZodType<T>): T {
  const parsed = parseBoundedJson(json(files, name), { maxChars: 50e6, maxDepth: 24 });
  const { success, data, error } = schema.safeParse(parsed);
  if (success) return data;
  throw new FormatError(
    error.issues
      .slice(0, 50)
      .map(({ path, message }) => ({ where: [name, ...path].map(String).join('.'), what: message })),
  );
}

/** Every entry is the one that was packed: same size, same hash, none missing, none added. */
async function checkManifest(files: ReadonlyMap<string, Uint8Array>, patience: Patience): Promise<void> {
  const { entries } = parseEntry(files, MANIFEST, manifestSchema);
  const listed = new Map(entries.map((entry) => [entry.name, entry]));
  for (const name of files.keys()) {
    if (name !== MANIFEST && !listed.has(name)) throw refuse(name, 'The entry is not in the manifest.');
  }
  for (const [i, { name, bytes, sha256: hash }] of entries.entries()) {
    const file = files.get(name);
    if (file?.length !== bytes || (await sha256(file)) !== hash) {
      throw refuse(name, 'The entry is not as it was packed: the file is damaged. Take another copy of it.');
    }
    await rest(patience, (i + 1) / entries.length);
  }
}

function picturesOf(files: ReadonlyMap<string, Uint8Array>): StoredAttachment[] {
  return [...files].flatMap(([name, bytes]) => {
    const hash = PICTURE.exec(name)?.[1];
    if (hash === undefined) return [];
    if (!mediaTypeOf(bytes)) throw refuse(name, 'It is no JPEG, PNG or WebP picture.');
    return [{ sha256: hash, bytes }];
  });
}

async function checkPictures(pictures: readonly StoredAttachment[]): Promise<void> {
  for (const { sha256: hash, bytes } of pictures) {
    if ((await sha256(bytes)) !== hash) throw refuse(`pictures/${hash}`, 'Its bytes do not match its name.');
  }
}

/** Rough shares of the work that are done when a bundle is unzipped, and when its entries are checked. */
const UNZIPPED = 0.1;
const CHECKED = 0.3;

/**
 * Reads a bundle back. Sizes, names and hashes are checked before anything in it is believed.
 *
 * @throws FormatError naming the entry at fault.
 */
export async function readBundle(bytes: Uint8Array, patience: Patience = {}): Promise<WholeLibrary> {
  const files = unzip(bytes);
  await checkManifest(files, within(patience, UNZIPPED, CHECKED - UNZIPPED));
  const attachments = picturesOf(files);
  await checkPictures(attachments);
  const {
    documents,
    acts,
    notChosen = [],
  } = await readLibraryText(json(files, LIBRARY), within(patience, CHECKED, 1 - CHECKED));
  const setAside: SetAside[] = files.has(SET_ASIDE) ? parseEntry(files, SET_ASIDE, setAsideSchema) : [];
  return { documents, acts, notChosen, attachments, setAside };
}

const ZIP_SIGNATURE = [0x50, 0x4b];

/** Told by its first bytes. */
const isZip = (bytes: Uint8Array) => ZIP_SIGNATURE.every((byte, i) => bytes[i] === byte);

function checkSize(bytes: number, most: number): void {
  if (bytes > most) throw refuse('file', `It is larger than ${most / 1e6} MB.`);
}

/** Reads a backup of either kind. @throws FormatError */
export async function readBackup(bytes: Uint8Array, patience: Patience = {}): Promise<WholeLibrary> {
  if (isZip(bytes)) return readBundle(bytes, patience);
  const { documents, acts, notChosen = [] } = await readLibraryText(decode('file', bytes), patience);
  return { documents, acts, notChosen, attachments: [], setAside: [] };
}

/** As `readBackup`, of a file: no more than its first bytes are read of one that is too large. @throws FormatError */
export async function readBackupFile(file: Blob, patience: Patience = {}): Promise<WholeLibrary> {
  const first = new Uint8Array(await file.slice(0, ZIP_SIGNATURE.length).arrayBuffer());
  checkSize(file.size, isZip(first) ? MAX_BYTES : MAX_JSON_BYTES);
  return readBackup(new Uint8Array(await file.arrayBuffer()), patience);
}
