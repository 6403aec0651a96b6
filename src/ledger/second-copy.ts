import type { Id } from '../../shared/ids.ts';
import type { Ledger } from './ledger.ts';
import type { MergeReport } from './merge.ts';
import type { Mirror } from './mirror.ts';
import type { Mirroring } from './mirroring.ts';
import { DEVICES_BEFORE, listOf } from './store.ts';

/** A copy of a library that this one does not hold: the browser has lost what is in it, all or the latest of it. */
export interface LostCopy {
  readonly deviceId: Id;
  /** What bringing it back would mean. */
  readonly report: MergeReport;
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
export async function isOwnPast(ledger: Ledger, { deviceId }: LostCopy): Promise<boolean> {
  return (await idsIn(ledger, DEVICES_BEFORE)).includes(deviceId);
}

/**
 * Looks for copies of other devices, which a lost library leaves behind: the one that took its place is a new device.
 * A copy that holds nothing more than the library goes.
 *
 * @returns Those that the maker has not decided to leave.
 */
export async function findLostCopies(ledger: Ledger, mirror: Mirror): Promise<readonly LostCopy[]> {
  const left = await idsIn(ledger, LEFT);
  const others = (await mirror.devices()).filter((id) => id !== ledger.deviceId && !left.includes(id));
  const lost: LostCopy[] = [];
  for (const deviceId of others) {
    const report = await ledger.compare(await mirror.read(deviceId));
    if (brings(report)) lost.push({ deviceId, report });
    else await mirror.drop(deviceId);
  }
  return lost;
}

/** Takes a copy into the library, whole or not at all; it goes once the library's own copy holds it too. */
export async function bringBack(
  ledger: Ledger,
  mirror: Mirror,
  deviceId: Id,
  mirroring: Mirroring,
): Promise<MergeReport> {
  const report = await ledger.merge(await mirror.read(deviceId));
  await mirroring.flush();
  if (mirroring.trouble() === undefined) await mirror.drop(deviceId);
  return report;
}

/** Does not offer a copy again. It stays where it is. */
export async function leaveCopy(ledger: Ledger, deviceId: Id): Promise<void> {
  await ledger.remember(LEFT, [...(await idsIn(ledger, LEFT)), deviceId]);
}
