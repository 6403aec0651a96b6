import { idSchema, type Id } from '../../shared/ids.ts';
import { FormatError } from '../../shared/errors.ts';
import type { LibraryDocument, NotChosen } from '../../shared/library.ts';
import type { Act } from '../../shared/round.ts';
import type { StoredAttachment } from './database.ts';
import { namesIn, readFile, removeEntry, writeFile, type FolderLike } from './folder.ts';
import type { SetAside } from './rows.ts';
import type { Counted, WholeLibrary } from './store-library.ts';

/**
 * A second copy of the library outside its database, for the day on which the browser loses that. A folder a device; in
 * it pieces, each a bundle of what changed since the piece before, named by the number of changes that the device had
 * made by then. What is in them is united as libraries are merged, in any order; a broken piece takes no other with it.
 */
export interface Mirror {
  /** How many changes of a device are in its copy; 0 when there is none. */
  readonly countOf: (deviceId: Id) => Promise<number>;
  readonly piecesOf: (deviceId: Id) => Promise<number>;
  /** Devices that have a copy here. */
  readonly devices: () => Promise<readonly Id[]>;
  /** Everything in the sound pieces of a device's copy. */
  readonly read: (deviceId: Id) => Promise<WholeLibrary>;
  readonly add: (deviceId: Id, part: Counted, token: Id) => Promise<void>;
  /** Puts one whole piece in the place of all that were there when it began. */
  readonly renew: (deviceId: Id, readAll: () => Promise<Counted>, token: Id) => Promise<void>;
  readonly drop: (deviceId: Id) => Promise<void>;
}

const PIECE = /^(\d{12})\.[0-9a-z-]+\.zip$/i;
const nameOf = (count: number, token: Id) => `${String(count).padStart(12, '0')}.${token}.zip`;
const isId = (name: string): name is Id => idSchema.safeParse(name).success;

/** A piece that is not whole, as the browser's death may leave it, counts as not there. */
async function readPiece(folder: FolderLike, name: string): Promise<WholeLibrary | undefined> {
  const { readBundle } = await import('./bundle.ts');
  try {
    return await readBundle(await readFile(folder, name));
  } catch (error) {
    if (error instanceof FormatError) return undefined;
    throw error;
  }
}

async function readPieces(folder: FolderLike, names: readonly string[]): Promise<WholeLibrary> {
  const documents: LibraryDocument[] = [];
  const acts = new Map<Id, Act>();
  const attachments = new Map<string, StoredAttachment>();
  const setAside: SetAside[] = [];
  const notChosen: NotChosen[] = [];
  for (const name of names) {
    const piece = await readPiece(folder, name);
    documents.push(...(piece?.documents ?? []));
    for (const act of piece?.acts ?? []) acts.set(act.id, act);
    for (const picture of piece?.attachments ?? []) attachments.set(picture.sha256, picture);
    setAside.push(...(piece?.setAside ?? []));
    notChosen.push(...(piece?.notChosen ?? []));
  }
  return { documents, acts: [...acts.values()], attachments: [...attachments.values()], setAside, notChosen };
}

/** The copy in the folder that the browser keeps for this page alone; nothing where it has none. */
export async function openBrowserMirror(): Promise<Mirror | undefined> {
  const { storage } = globalThis.navigator as Partial<Navigator>;
  try {
    const root = (await storage?.getDirectory()) as unknown as FolderLike | undefined;
    return root && (await openMirror(root));
  } catch {
    return undefined;
  }
}

/** @param root The browser's private folder for this page. */
export async function openMirror(root: FolderLike): Promise<Mirror> {
  const top = await root.getDirectoryHandle('second-copy', { create: true });
  const folderOf = (deviceId: Id) => top.getDirectoryHandle(deviceId, { create: true });
  const devices = async () => (await namesIn(top)).filter(isId);
  const piecesIn = async (folder: FolderLike) => (await namesIn(folder)).filter((name) => PIECE.test(name));
  const pieces = async (deviceId: Id) =>
    (await devices()).includes(deviceId) ? piecesIn(await folderOf(deviceId)) : [];
  const put = async (folder: FolderLike, { count, ...part }: Counted, token: Id) => {
    const { writeBundle } = await import('./bundle.ts');
    await writeFile(folder, nameOf(count, token), await writeBundle(part));
  };

  return {
    devices,
    countOf: async (deviceId) => Number(PIECE.exec((await pieces(deviceId)).at(-1) ?? '')?.[1] ?? 0),
    piecesOf: async (deviceId) => (await pieces(deviceId)).length,
    read: async (deviceId) => readPieces(await folderOf(deviceId), await pieces(deviceId)),
    add: async (deviceId, part, token) => put(await folderOf(deviceId), part, token),
    async renew(deviceId, readAll, token) {
      const folder = await folderOf(deviceId);
      const before = await piecesIn(folder);
      await put(folder, await readAll(), token);
      for (const name of before) await removeEntry(folder, name);
    },
    drop: (deviceId) => removeEntry(top, deviceId),
  };
}
