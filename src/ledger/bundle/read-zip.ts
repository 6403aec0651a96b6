import { inflateSync } from 'fflate';
import { refuse } from './manifest.ts';

/** One file in a zip file. */
export interface ZipEntry {
  readonly name: string;
  /** As its directory says; what is read is never longer. */
  readonly bytes: number;
  readonly read: () => Promise<Uint8Array>;
}

// Source: the zip file format as published by its makers (APPNOTE 6.3), from memory.
const END = 0x06054b50;
const END_BYTES = 22;
const ENTRY = 0x02014b50;
const ENTRY_BYTES = 46;
const LOCAL = 0x04034b50;
const LOCAL_BYTES = 30;
const MAX_COMMENT = 0xffff;
const ZIP64 = 0xffffffff;
const STORED = 0;
const DEFLATED = 8;

const cutOff = (cause?: unknown) =>
  refuse('file', 'This is no whole zip file: it may be cut off. Take another copy of it.', cause);

async function viewOf(file: Blob, from: number, to: number): Promise<DataView> {
  if (from < 0 || to > file.size || from > to) throw cutOff();
  return new DataView(await file.slice(from, to).arrayBuffer());
}

/** The record at the end that says where the directory is. */
async function endOf(file: Blob): Promise<DataView> {
  const tail = await viewOf(file, Math.max(0, file.size - END_BYTES - MAX_COMMENT), file.size);
  for (let at = tail.byteLength - END_BYTES; at >= 0; at--)
    if (tail.getUint32(at, true) === END) return new DataView(tail.buffer, at, END_BYTES);
  throw cutOff();
}

interface Placed {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly bytes: number;
  readonly at: number;
}

function inflated({ name, method, bytes }: Placed, data: Uint8Array): Uint8Array {
  if (method === STORED) return data;
  if (method !== DEFLATED) throw refuse(name, 'It is packed in a way that no bundle of the bench uses.');
  try {
    return inflateSync(data, { out: new Uint8Array(bytes) });
  } catch (error) {
    throw refuse(
      name,
      'The entry is not as it was packed: the file is damaged. Take another copy of it.',
      error,
    );
  }
}

async function readEntry(file: Blob, placed: Placed): Promise<Uint8Array> {
  const local = await viewOf(file, placed.at, placed.at + LOCAL_BYTES);
  if (local.getUint32(0, true) !== LOCAL) throw cutOff();
  const from = placed.at + LOCAL_BYTES + local.getUint16(26, true) + local.getUint16(28, true);
  const data = await viewOf(file, from, from + placed.packed);
  return inflated(placed, new Uint8Array(data.buffer));
}

function entriesIn(directory: DataView, count: number): Placed[] {
  const entries: Placed[] = [];
  let at = 0;
  for (let n = 0; n < count; n++) {
    if (at + ENTRY_BYTES > directory.byteLength || directory.getUint32(at, true) !== ENTRY) throw cutOff();
    const lengths = [28, 30, 32].map((place) => directory.getUint16(at + place, true));
    const [nameBytes = 0] = lengths;
    const end = at + ENTRY_BYTES + lengths.reduce((sum, length) => sum + length, 0);
    if (end > directory.byteLength) throw cutOff();
    const name = new TextDecoder().decode(
      new Uint8Array(directory.buffer, directory.byteOffset + at + ENTRY_BYTES, nameBytes),
    );
    const [packed, bytes, place] = [20, 24, 42].map((offset) => directory.getUint32(at + offset, true));
    const entry = {
      name,
      method: directory.getUint16(at + 10, true),
      packed: packed ?? 0,
      bytes: bytes ?? 0,
      at: place ?? 0,
    };
    if ([entry.packed, entry.bytes, entry.at].includes(ZIP64))
      throw refuse(
        'file',
        'It was packed anew by another program, in the form for more than 4 GB. Bring in the file as it was.',
      );
    entries.push(entry);
    at = end;
  }
  return entries;
}

/**
 * The directory of a zip file, read from its end; an entry's bytes are read when they are asked for.
 *
 * @throws FormatError when it is no zip file, or cut off.
 */
export async function openZip(file: Blob): Promise<readonly ZipEntry[]> {
  const end = await endOf(file);
  const [count, size, from] = [end.getUint16(10, true), end.getUint32(12, true), end.getUint32(16, true)];
  return entriesIn(await viewOf(file, from, from + size), count).map((placed) => ({
    name: placed.name,
    bytes: placed.bytes,
    read: () => readEntry(file, placed),
  }));
}
