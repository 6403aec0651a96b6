import { moment } from '../../shared/moment.ts';
import { namesIn, removeEntry, writeFile, type FolderLike } from './folder.ts';
import type { Ledger } from './ledger.ts';

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
const PUT_OFF = 'copy reminder put off';
const READ_WRITE = { mode: 'readwrite' } as const;

/** One file a day, the last of that day; older days than these go. Common practice, no source. */
const DAYS_KEPT = 30;
const OURS = /^hundredths-\d{4}-\d{2}-\d{2}\.zip$/;

export const copyName = (at: Date) => `hundredths-${moment(at).slice(0, 10)}.zip`;

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

/** The whole library, pictures and unreadable records included, as one file. */
export async function wholeFile(ledger: Ledger): Promise<Uint8Array> {
  const { writeBundle } = await import('./bundle.ts');
  return writeBundle(await ledger.readWhole());
}

/**
 * Writes today's copy into the folder. An empty library writes none: what was lost is not written over what was kept.
 *
 * @returns Whether a copy was written.
 */
export async function copyToFolder(ledger: Ledger, folder: FolderLike, now: Date): Promise<boolean> {
  const { live, deleted } = await ledger.read();
  if (Object.values(live).flat().length + deleted.length === 0) return false;
  await writeFile(folder, copyName(now), await wholeFile(ledger));
  await noteCopy(ledger, 'folder', now);
  const ours = (await namesIn(folder)).filter((name) => OURS.test(name) && name <= copyName(now));
  for (const name of ours.slice(0, -DAYS_KEPT)) await removeEntry(folder, name);
  return true;
}

/** Days without a copy before the first reminder, and from one to the next. Common practice, no source. */
const FIRST_DAYS = 7;
const EVERY_DAYS = 30;
const DAY_MS = 86_400_000;

/**
 * Whether to remind the maker of a copy: there is work of their own that no copy holds, for long enough, and the
 * reminder was not put off. A clock set back puts it off at most by what it was set back.
 */
export async function isCopyDue(ledger: Ledger, now: Date): Promise<boolean> {
  const { live } = await ledger.read();
  const own = [...live.reed, ...live.pass].filter(({ invented }) => !invented);
  const times = (key: 'createdAt' | 'updatedAt') => own.map((one) => Date.parse(one[key]));
  const last = await lastCopy(ledger);
  const putOff = await ledger.recall(PUT_OFF);
  const since = last ? Date.parse(last.at) : Math.min(...times('createdAt'));
  const changed = Math.max(...times('updatedAt'));
  const days = last ? EVERY_DAYS : FIRST_DAYS;
  const isOld = now.getTime() - since > days * DAY_MS && (!last || changed > since);
  return isOld && !(typeof putOff === 'string' && now.getTime() - Date.parse(putOff) < EVERY_DAYS * DAY_MS);
}

export const putOffCopy = (ledger: Ledger, now: Date) => ledger.remember(PUT_OFF, moment(now));
