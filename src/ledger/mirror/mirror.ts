import { FormatError } from '../../../shared/errors.ts';
import { idSchema, type Id } from '../../../shared/ids.ts';
import { joined, ordered, portionsOf } from '../bundle/portions.ts';
import { checkBundle } from '../bundle/read.ts';
import { memorySink, writeBundles } from '../bundle/write.ts';
import { bytesOf, fileIn, namesIn, removeEntry, writeFile, type FolderLike } from '../folder.ts';
import { goneById, isGone } from '../gone.ts';
import type { Ledger } from '../ledger-face.ts';
import type { Changed, WholeLibrary } from '../whole-library.ts';
import { countIn, isAsNamed, piecePortions, piecesIn, writePiece, type Unreadable } from './pieces.ts';

/**
 * A second copy of the library outside its database, for the day on which the browser loses that. A folder a device; in
 * it pieces, each a bundle of what changed since the piece before, named by its content and by the number of changes
 * that the device had made by then. What is in them is united as libraries are merged, in any order; a broken piece
 * takes no other with it, and none is removed that cannot be read.
 */
export interface Mirror {
  /** How many changes of a device are in its copy; 0 when there is none. */
  readonly countOf: (deviceId: Id) => Promise<number>;
  readonly piecesOf: (deviceId: Id) => Promise<number>;
  /** Devices that have a copy here. */
  readonly devices: () => Promise<readonly Id[]>;
  /** The sound portions of a device's copy, one after the other. @param unreadable Is added to. */
  readonly portions: (deviceId: Id, unreadable: Unreadable[]) => AsyncIterable<WholeLibrary>;
  /** All sound portions in one, without what was removed for good; for a small copy. */
  readonly read: (deviceId: Id) => Promise<WholeLibrary>;
  /**
   * Adds what has changed by now; or puts everything in the place of all that was there when it began, once the new pieces
   * have been read back.
   */
  readonly copy: (source: Source, changed: Changed | 'all') => Promise<void>;
  /** Whether small pieces are many by now. */
  readonly isScattered: (deviceId: Id) => Promise<boolean>;
  /** Puts small pieces together. */
  readonly compact: (deviceId: Id) => Promise<void>;
  /**
   * Lets a copy go whose content is elsewhere by now.
   *
   * @param unreadable Is set aside, with whatever else is not as it was written.
   */
  readonly drop: (deviceId: Id, unreadable?: readonly Unreadable[]) => Promise<void>;
  /** Pieces that could not be read when others took their place. */
  readonly setAside: () => Promise<readonly { readonly name: string; readonly file: Blob }[]>;
  readonly removeSetAside: () => Promise<void>;
  /** Puts something else beside them that could not be read. */
  readonly putAside: (name: string, bytes: Uint8Array) => Promise<void>;
}

/** The library of a device, as far as its copy needs it. */
export type Source = Pick<Ledger, 'deviceId' | 'portions'>;

/** What goes into a copy, and how many changes its device had made before the first portion was read. */
interface Counted {
  readonly count: number;
  readonly portions: AsyncIterable<WholeLibrary> | Iterable<WholeLibrary>;
}

/** A piece ends after so many bytes: it is in memory as a whole, and what is broken of it is lost. Our own number. */
const PIECE_BYTES = 2e6;
/** More small pieces than this are put together when the library is next opened. Common practice, no source. */
const MANY_PIECES = 50;
const SET_ASIDE = 'set-aside';

const isId = (name: string): name is Id => idSchema.safeParse(name).success;

/** The copy in the folder that the browser keeps for this page alone; nothing where it has none. */
export async function openBrowserMirror(): Promise<Mirror | undefined> {
  const { storage } = globalThis.navigator as Partial<Navigator>;
  if (!storage || !('getDirectory' in storage)) return undefined;
  return openMirror((await storage.getDirectory()) as unknown as FolderLike);
}

/** Writes portions as pieces. @returns Their names. */
async function writePieces(folder: FolderLike, { portions, count }: Counted): Promise<Set<string>> {
  const names = new Set<string>();
  let sink = memorySink();
  await writeBundles(
    { portions },
    async (part) => {
      // Only the last piece tells that everything up to the count is there.
      if (part > 1) names.add(await writePiece(folder, sink.bytes(), 0));
      sink = memorySink();
      return sink;
    },
    { maxBytes: PIECE_BYTES },
  );
  return names.add(await writePiece(folder, sink.bytes(), count));
}

async function isReadable(file: Blob): Promise<boolean> {
  if (file.size === 0) return true;
  try {
    await checkBundle(file);
    return true;
  } catch (error) {
    if (error instanceof FormatError) return false;
    throw error;
  }
}

async function smallIn(folder: FolderLike): Promise<readonly string[]> {
  const small: string[] = [];
  for (const name of await piecesIn(folder))
    if ((await fileIn(folder, name)).size < PIECE_BYTES / 2) small.push(name);
  return small;
}

/** @param root The browser's private folder for this page. */
export async function openMirror(root: FolderLike): Promise<Mirror> {
  const top = await root.getDirectoryHandle('second-copy', { create: true });
  const folderOf = (deviceId: Id) => top.getDirectoryHandle(deviceId, { create: true });
  const setAsideFolder = () => top.getDirectoryHandle(SET_ASIDE, { create: true });
  const putAside = async (name: string, bytes: Uint8Array) => writeFile(await setAsideFolder(), name, bytes);
  const devices = async () => (await namesIn(top)).filter(isId);
  const pieces = async (deviceId: Id) =>
    (await devices()).includes(deviceId) ? piecesIn(await folderOf(deviceId)) : [];

  async function* portions(deviceId: Id, unreadable: Unreadable[]) {
    const folder = await folderOf(deviceId);
    for (const name of await pieces(deviceId)) yield* piecePortions(folder, name, unreadable);
  }

  /** Removes pieces whose content is elsewhere by now; one that cannot be read is set aside first. */
  async function retire(
    folder: FolderLike,
    names: readonly string[],
    unreadable: readonly Unreadable[] = [],
  ) {
    for (const name of names) {
      const file = await fileIn(folder, name);
      const isSound = !unreadable.some((one) => one.name === name) && (await isReadable(file));
      if (!isSound) await putAside(name, await bytesOf(file));
      await removeEntry(folder, name);
    }
  }

  return {
    devices,
    async countOf(deviceId) {
      const folder = await folderOf(deviceId);
      for (const name of (await pieces(deviceId)).reverse())
        if (await isAsNamed(folder, name)) return countIn(name);
      return 0;
    },
    piecesOf: async (deviceId) => (await pieces(deviceId)).length,
    portions,
    async read(deviceId) {
      const all: WholeLibrary[] = [];
      for await (const portion of portions(deviceId, [])) all.push(portion);
      const whole = joined(all);
      const gone = goneById(whole.gone ?? []);
      const acts = new Map(whole.acts.map((act) => [act.id, act]));
      return {
        ...whole,
        documents: whole.documents.filter((one) => !isGone(one, gone.get(one.id))),
        acts: [...acts.values()].filter(({ roundId }) => !gone.has(roundId)),
        attachments: [...new Map(whole.attachments.map((one) => [one.sha256, one])).values()],
      };
    },
    async copy({ deviceId, portions: read }, changed) {
      const folder = await folderOf(deviceId);
      const before = changed === 'all' ? await piecesIn(folder) : [];
      const written = await writePieces(folder, await read(changed));
      await retire(
        folder,
        before.filter((name) => !written.has(name)),
      );
    },
    isScattered: async (deviceId) => (await smallIn(await folderOf(deviceId))).length > MANY_PIECES,
    async compact(deviceId) {
      const folder = await folderOf(deviceId);
      const small = await smallIn(folder);
      if (small.length === 0) return;
      const [all, unreadable]: [WholeLibrary[], Unreadable[]] = [[], []];
      for (const name of small)
        for await (const portion of piecePortions(folder, name, unreadable)) all.push(portion);
      const portions = portionsOf(ordered(joined(all)));
      const written = await writePieces(folder, { portions, count: Math.max(...small.map(countIn)) });
      await retire(
        folder,
        small.filter((name) => !written.has(name)),
      );
    },
    async drop(deviceId, unreadable = []) {
      await retire(await folderOf(deviceId), await pieces(deviceId), unreadable);
      await removeEntry(top, deviceId);
    },
    async setAside() {
      const folder = await setAsideFolder();
      const names = await namesIn(folder);
      return Promise.all(names.map(async (name) => ({ name, file: await fileIn(folder, name) })));
    },
    removeSetAside: () => removeEntry(top, SET_ASIDE),
    putAside,
  };
}
