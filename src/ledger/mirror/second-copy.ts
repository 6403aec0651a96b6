import type { Id } from '../../../shared/ids.ts';
import type { Ledger } from '../ledger-face.ts';
import { joinReports, type MergeReport } from '../merge.ts';
import { DEVICES_BEFORE, listOf } from '../store.ts';
import type { Mirror } from './mirror.ts';
import type { Mirroring } from './mirroring.ts';
import type { Unreadable } from './pieces.ts';

/** A copy of a library that this one does not hold: the browser has lost what is in it, all or the latest of it. */
export interface LostCopy {
  readonly deviceId: Id;
  /** What bringing it back would mean, or meant. */
  readonly report: MergeReport;
  /** Pieces of it that cannot be read. */
  readonly unreadable: readonly Unreadable[];
}

const LEFT = 'second copies left';

async function idsIn(ledger: Ledger, key: string): Promise<readonly unknown[]> {
  return listOf(await ledger.recall(key));
}

/**
 * Remembers that every copy here is of this library, which has lost everything: each is brought back, however often the
 * browser dies over it.
 */
export async function claimCopies(ledger: Ledger, mirror: Mirror): Promise<void> {
  const others = (await mirror.devices()).filter((id) => id !== ledger.deviceId);
  if (others.length > 0) await ledger.remember(DEVICES_BEFORE, others);
}

/** Whether a merge would bring anything. */
export const brings = ({ documents, acts }: MergeReport) =>
  documents.new + documents.newer + documents.apart + acts.new > 0;

/** Whether a copy is of what this library was before the browser put it back. */
export async function isOwnPast(ledger: Ledger, { deviceId }: Pick<LostCopy, 'deviceId'>): Promise<boolean> {
  return (await idsIn(ledger, DEVICES_BEFORE)).includes(deviceId);
}

/** Works through a copy portion by portion. */
async function over(
  mirror: Mirror,
  deviceId: Id,
  work: (portion: Parameters<Ledger['merge']>[0]) => Promise<MergeReport>,
): Promise<LostCopy> {
  const unreadable: Unreadable[] = [];
  const reports: MergeReport[] = [];
  for await (const portion of mirror.portions(deviceId, unreadable)) reports.push(await work(portion));
  return { deviceId, report: joinReports(reports), unreadable };
}

/** Lets a copy go once the library's own copy holds all of it. */
async function dropWhenKept(mirror: Mirror, copy: LostCopy, mirroring: Mirroring): Promise<void> {
  await mirroring.flush();
  if (mirroring.trouble() === undefined) await mirror.drop(copy.deviceId, copy.unreadable);
}

const isNewer = ({ unreadable }: LostCopy) => unreadable.some(({ why }) => why === 'newer');

/**
 * Looks for copies of other devices, which a lost library leaves behind: the one that took its place is a new device.
 * A copy that holds nothing more than the library goes, unless a newer version of the bench has written in it.
 *
 * @returns Those that the maker has not decided to leave.
 */
export async function findLostCopies(
  ledger: Ledger,
  mirror: Mirror,
  mirroring: Mirroring,
): Promise<readonly LostCopy[]> {
  const left = await idsIn(ledger, LEFT);
  const others = (await mirror.devices()).filter((id) => id !== ledger.deviceId && !left.includes(id));
  const lost: LostCopy[] = [];
  for (const deviceId of others) {
    const isOwn = await isOwnPast(ledger, { deviceId });
    const copy = await over(mirror, deviceId, (portion) => ledger.compare(portion, { isOwn }));
    if (brings(copy.report) || copy.unreadable.length > 0) lost.push(copy);
    // What was removed for good there may stand here once more: it brings nothing, and takes that away.
    else if (isOwn) await bringBack(ledger, mirror, deviceId, mirroring);
    else await dropWhenKept(mirror, copy, mirroring);
  }
  return lost;
}

/**
 * Takes a copy into the library, portion by portion: what the browser's death leaves out comes at the next opening. It
 * goes once the library's own copy holds it too; what cannot be read of it is set aside, or left where it is when a
 * newer version has written it.
 */
export async function bringBack(
  ledger: Ledger,
  mirror: Mirror,
  deviceId: Id,
  mirroring: Mirroring,
): Promise<LostCopy> {
  const isOwn = await isOwnPast(ledger, { deviceId });
  const copy = await over(mirror, deviceId, (portion) => ledger.merge(portion, { isOwn }));
  if (isNewer(copy)) await leaveCopy(ledger, deviceId);
  else await dropWhenKept(mirror, copy, mirroring);
  return copy;
}

/** Does not offer a copy again. It stays where it is. */
export async function leaveCopy(ledger: Ledger, deviceId: Id): Promise<void> {
  await ledger.remember(LEFT, [...(await idsIn(ledger, LEFT)), deviceId]);
}
