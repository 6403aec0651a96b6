import { moment } from '../../shared/moment.ts';
import type { Id } from '../../shared/ids.ts';
import type { Sink } from './bundle/write.ts';
import { beginFile, fileIn, namesIn, removeEntry, type FolderLike } from './folder.ts';
import type { Ledger } from './ledger-face.ts';
import type { ProgressOptions } from './patience.ts';

/** A folder that the maker picked. The browser asks anew for leave to write in it after it was closed. */
export interface PickedFolder extends FolderLike {
  queryPermission(options: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission(options: { mode: 'readwrite' }): Promise<PermissionState>;
}

/** The last copy that left the browser. */
export interface LastCopy {
  readonly at: string;
  readonly to: 'folder' | 'download';
}

const FOLDER = 'copy folder';
const LAST = 'last copy';
const READ_WRITE = { mode: 'readwrite' } as const;

/** One copy a day, the last of that day; older days than these go. Common practice, no source. */
const DAYS_KEPT = 30;

/** What this device's copies are called by, and those that it has written: an other's under the same mark is not its own. */
interface Written {
  readonly mark: string;
  readonly names: readonly string[];
}
const WRITTEN = 'copies written';
/** More than there are copies in a few folders. Our own number. */
const MOST_NAMES = 500;

/** Enough of an id to tell the devices that write into one folder apart. */
const markOf = (id: Id) => id.slice(-6);

/** `hundredths-2026-03-01-0900-a1b2c3.zip`: the day, the time, the device; and the part, where there are several. */
function copyName(at: Date, mark: string, part = 1): string {
  const local = moment(at);
  const time = local.slice(11, 16).replace(':', '');
  const which = part > 1 ? `-part-${part}` : '';
  return `hundredths-${local.slice(0, 10)}-${time}-${mark}${which}.zip`;
}

const COPY = /^hundredths-(\d{4}-\d{2}-\d{2})-\d{4}-([0-9a-f]{6})(?:-part-\d+)?\.zip$/;
const dayIn = (name: string) => COPY.exec(name)?.[1];
const markIn = (name: string) => COPY.exec(name)?.[2];

/**
 * What this device has written into a folder. Where a copy lies there under its mark that it has not written, another
 * device was made from this one, with all that its browser kept: this one takes a new mark, and leaves the other's copies.
 */
async function writtenIn(ledger: Ledger, names: readonly string[]): Promise<Written> {
  const known = (await ledger.recall(WRITTEN)) as Written | undefined;
  const mark = known?.mark ?? markOf(ledger.deviceId);
  const marked = names.filter((name) => markIn(name) === mark);
  const own = new Set(known?.names ?? marked);
  const isCloned = marked.some((name) => !own.has(name));
  return { mark: isCloned ? markOf(ledger.newId()) : mark, names: [...own].slice(-MOST_NAMES) };
}

export const pickedFolder = async (ledger: Ledger) =>
  (await ledger.recall(FOLDER)) as PickedFolder | undefined;
export const pickFolder = (ledger: Ledger, folder: PickedFolder | undefined) =>
  ledger.remember(FOLDER, folder);
export const lastCopy = async (ledger: Ledger) => (await ledger.recall(LAST)) as LastCopy | undefined;
export const noteCopy = (ledger: Ledger, to: LastCopy['to'], at: Date) =>
  ledger.remember(LAST, { at: moment(at), to } satisfies LastCopy);

export async function mayWrite(folder: PickedFolder): Promise<boolean> {
  return (await folder.queryPermission(READ_WRITE)) === 'granted';
}

/** Asks for leave to write; only in answer to a click. */
export async function askToWrite(folder: PickedFolder): Promise<boolean> {
  return (await folder.requestPermission(READ_WRITE)) === 'granted';
}

/**
 * Writes the whole library, pictures and unreadable records included: in one file, or in several where one would grow
 * too large for ordinary tools.
 *
 * @param open Begins the file of a part, counted from 1.
 * @returns How many parts there are.
 */
export async function writeWhole(
  ledger: Ledger,
  open: (part: number) => Promise<Sink>,
  patience: ProgressOptions = {},
): Promise<number> {
  const { writeBundles } = await import('./bundle/write.ts');
  const { portions, length } = await ledger.portions('all');
  return writeBundles({ portions, count: length }, open, patience);
}

/** Writes a copy under new names, and reads it back. @returns The names. */
async function writeCopy(
  ledger: Ledger,
  folder: FolderLike,
  now: Date,
  before: Written,
): Promise<readonly string[]> {
  const names: string[] = [];
  await writeWhole(ledger, async (part) => {
    const name = copyName(now, before.mark, part);
    names.push(name);
    await ledger.remember(WRITTEN, { ...before, names: [...before.names, ...names] } satisfies Written);
    return beginFile(folder, name);
  });
  const { checkBundle } = await import('./bundle/read.ts');
  for (const name of names) await checkBundle(await fileIn(folder, name));
  return names;
}

/**
 * Writes a copy into the folder, and lets this device's older copies go once the new one has been read back: earlier
 * ones of the same day, and days beyond the last thirty. An empty library writes none: what was lost is not written over
 * what was kept.
 *
 * @returns Whether a copy was written.
 */
export async function copyToFolder(ledger: Ledger, folder: FolderLike, now: Date): Promise<boolean> {
  if ((await ledger.read()).isEmpty) return false;
  const there = await namesIn(folder);
  const before = await writtenIn(ledger, there);
  const written = new Set(await writeCopy(ledger, folder, now, before));
  await noteCopy(ledger, 'folder', now);
  const today = moment(now).slice(0, 10);
  const older = before.names
    .filter((name) => there.includes(name))
    .flatMap((name) => {
      const day = dayIn(name);
      return day !== undefined && day <= today && !written.has(name) ? [{ name, day }] : [];
    });
  const kept = [...new Set(older.map(({ day }) => day))].filter((day) => day < today).slice(-(DAYS_KEPT - 1));
  for (const { name, day } of older) if (!kept.includes(day)) await removeEntry(folder, name);
  return true;
}
