import { strToU8, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { canonicalJson } from '../canonical.ts';
import { recordsText } from '../library-file.ts';
import { rest, type ProgressOptions } from '../patience.ts';
import { sha256 } from '../sha256.ts';
import type { WholeLibrary } from '../whole-library.ts';
import { BUNDLE_FORMAT, MANIFEST, MAX_ENTRIES, SET_ASIDE, type Manifest } from './manifest.ts';
import { halves, ordered, portionsOf } from './portions.ts';

/** Zip keeps local times from 1980 on; a fixed one makes equal libraries equal files. */
const MTIME = new Date(1980, 0, 1);

/** Ordinary zip counts to 4 GB; half of that leaves room for tools that count with a sign. */
const MAX_PART_BYTES = 2e9;

/** Where the bytes of one part go. */
export interface Sink {
  write(bytes: Uint8Array): Promise<unknown>;
  close(): Promise<unknown>;
}

interface Part {
  readonly size: () => number;
  readonly isFull: () => boolean;
  readonly add: (name: string, bytes: Uint8Array, compressed: boolean) => Promise<void>;
  readonly end: (parts?: number) => Promise<void>;
}

/** One zip file, written entry by entry; no more of it than one entry is in memory. */
function beginPart(sink: Sink, part: number, maxBytes: number): Part {
  const entries: Manifest['entries'] = [];
  const waiting: Uint8Array[] = [];
  let size = 0;
  const zip = new Zip((error, bytes) => {
    if (error) throw error;
    waiting.push(bytes);
  });

  async function drain() {
    for (const bytes of waiting.splice(0)) {
      size += bytes.length;
      await sink.write(bytes);
    }
  }
  async function put(name: string, bytes: Uint8Array, compressed: boolean) {
    const entry = compressed ? new ZipDeflate(name, { level: 6 }) : new ZipPassThrough(name);
    entry.mtime = MTIME;
    zip.add(entry);
    entry.push(bytes, true);
    await drain();
  }

  return {
    size: () => size,
    isFull: () => size >= maxBytes || entries.length >= MAX_ENTRIES - 1,
    async add(name, bytes, compressed) {
      entries.push({ name, bytes: bytes.length, sha256: await sha256(bytes) });
      await put(name, bytes, compressed);
    },
    async end(parts) {
      const manifest: Manifest = {
        format: 'hundredths-bundle',
        formatVersion: BUNDLE_FORMAT,
        part,
        ...(parts !== undefined && { parts }),
        entries,
      };
      await put(MANIFEST, strToU8(canonicalJson(manifest)), true);
      zip.end();
      await drain();
      await sink.close();
    },
  };
}

/** No entry is longer than this, unless it is a single record: what reads it has one in memory. Our own number. */
const ENTRY_BYTES = 2e6;

/** A portion's records, in as many entries as it takes. */
function* entriesOf(portion: WholeLibrary): Generator<Uint8Array> {
  const text = recordsText(portion);
  if (text === undefined) return;
  const parted = text.length > ENTRY_BYTES ? halves(portion) : undefined;
  if (!parted) yield strToU8(text);
  else for (const half of parted) yield* entriesOf(half);
}

/** Portions of a library, and how many steps they are in all, where that is known. */
export interface Source {
  readonly portions: AsyncIterable<WholeLibrary> | Iterable<WholeLibrary>;
  readonly count?: number;
}

/**
 * Writes a library as zip files that ordinary tools open: one, or more where one would grow too large. Each is a bundle
 * of its own and can be read without the others, in any order. Equal portions make equal files.
 *
 * @param open Begins the file of a part, counted from 1.
 * @param maxBytes A part ends at the first entry after so many bytes.
 * @returns How many parts there are.
 */
export async function writeBundles(
  { portions, count }: Source,
  open: (part: number) => Promise<Sink>,
  { maxBytes = MAX_PART_BYTES, ...patience }: ProgressOptions & { readonly maxBytes?: number } = {},
): Promise<number> {
  let parts = 1;
  let part = beginPart(await open(parts), parts, maxBytes);
  let records = 0;
  let done = 0;
  const setAside: WholeLibrary['setAside'][number][] = [];
  for await (const portion of portions) {
    if (part.isFull()) {
      await part.end();
      part = beginPart(await open(++parts), parts, maxBytes);
    }
    for (const bytes of entriesOf(portion))
      await part.add(`records/${String(++records).padStart(6, '0')}.json`, bytes, true);
    for (const { sha256: hash, bytes } of portion.attachments)
      await part.add(`pictures/${hash}`, bytes, false);
    setAside.push(...portion.setAside);
    await rest(patience, count === undefined ? 0 : Math.min(1, ++done / count));
  }
  if (setAside.length > 0) await part.add(SET_ASIDE, strToU8(canonicalJson(setAside)), true);
  await part.end(parts);
  return parts;
}

/** A sink that keeps everything. */
export function memorySink(): Sink & { readonly bytes: () => Uint8Array } {
  const chunks: Uint8Array[] = [];
  return {
    write: (bytes) => Promise.resolve(void chunks.push(bytes)),
    close: () => Promise.resolve(),
    bytes() {
      const all = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
      let at = 0;
      for (const chunk of chunks) {
        all.set(chunk, at);
        at += chunk.length;
      }
      return all;
    },
  };
}

/** A small library, or a piece of one, as one zip file in memory. Equal libraries are equal files. */
export async function writeBundle(whole: WholeLibrary): Promise<Uint8Array> {
  const sink = memorySink();
  await writeBundles({ portions: portionsOf(ordered(whole)) }, () => Promise.resolve(sink), {
    maxBytes: Infinity,
  });
  return sink.bytes();
}
