import { FormatError } from '../../../shared/errors.ts';
import { bundlePortions, checkBundle } from '../bundle/read.ts';
import { NewerFormatError } from '../errors.ts';
import { bytesOf, fileIn, namesIn, writeFile, type FolderLike } from '../folder.ts';
import { sha256 } from '../sha256.ts';
import type { WholeLibrary } from '../whole-library.ts';

/** A piece of a copy that cannot be read, under its name: it stays where it is. Or a line of the journal, set aside. */
export interface Unreadable {
  readonly of?: 'journal';
  readonly name: string;
  readonly bytes: number;
  readonly why: 'damaged' | 'newer';
}

/** By how many changes its device had made, and what its bytes are; a name in which that is an id is of an older kind. */
const PIECE = /^(\d{12})\.([0-9a-z-]+)\.zip$/i;
const HASH = /^[0-9a-f]{64}$/;

export const piecesIn = async (folder: FolderLike) =>
  (await namesIn(folder)).filter((name) => PIECE.test(name));
export const countIn = (name: string) => Number(PIECE.exec(name)?.[1] ?? 0);

/** Whether a piece's bytes are those that its name tells of; a name of the older kind tells of none. */
export async function isAsNamed(folder: FolderLike, name: string): Promise<boolean> {
  const hash = PIECE.exec(name)?.[2] ?? '';
  if (!HASH.test(hash)) return true;
  return (await sha256(await bytesOf(await fileIn(folder, name)))) === hash;
}

/**
 * Writes a piece under the name of its content, and reads it back before it counts as written.
 *
 * @param count How many changes the device had made when nothing before them is missing any more; 0 within a group.
 * @throws Error when what is read is not what was written.
 */
export async function writePiece(folder: FolderLike, bytes: Uint8Array, count: number): Promise<string> {
  const name = `${String(count).padStart(12, '0')}.${await sha256(bytes)}.zip`;
  if ((await piecesIn(folder)).includes(name) && (await isAsNamed(folder, name))) return name;
  await writeFile(folder, name, bytes);
  const back = await fileIn(folder, name);
  await checkBundle(back);
  if (!(await isAsNamed(folder, name)))
    throw new Error('The second copy does not read back as it was written.');
  return name;
}

/**
 * The sound portions of a piece. One that was begun and never written, as the browser's death may leave it, has none.
 *
 * @param unreadable Is added to when not all of it can be read.
 */
export async function* piecePortions(
  folder: FolderLike,
  name: string,
  unreadable: Unreadable[],
): AsyncGenerator<WholeLibrary> {
  const file = await fileIn(folder, name);
  if (file.size === 0) return;
  let fault: FormatError | undefined;
  try {
    yield* bundlePortions(file, {}, (found) => (fault = found));
  } catch (error) {
    if (!(error instanceof FormatError)) throw error;
    fault = error;
  }
  if (fault)
    unreadable.push({ name, bytes: file.size, why: fault instanceof NewerFormatError ? 'newer' : 'damaged' });
}
