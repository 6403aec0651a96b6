import type { Id } from '../../shared/ids.ts';
import type { Ledger } from './ledger.ts';
import type { MergeReport } from './merge.ts';
import type { Mirror } from './mirror.ts';
import type { Mirroring } from './mirroring.ts';

/** A copy of a library that this one does not hold: the browser has lost what is in it, all or the latest of it. */
export interface LostCopy {
  readonly deviceId: Id;
  /** What bringing it back would mean. */
  readonly report: MergeReport;
}

const LEFT = 'second copies left';

async function leftCopies(ledger: Ledger): Promise<readonly unknown[]> {
  const left = await ledger.recall(LEFT);
  return Array.isArray(left) ? left : [];
}

/** Whether a merge would bring anything. */
export const brings = ({ documents, acts }: MergeReport) =>
  documents.new + documents.newer + documents.apart + acts.new > 0;

/**
 * Looks for copies of other devices, which a lost library leaves behind: the one that took its place is a new device.
 * A copy that holds nothing more than the library goes.
 *
 * @returns Those that the maker has not decided to leave.
 */
export async function findLostCopies(ledger: Ledger, mirror: Mirror): Promise<readonly LostCopy[]> {
  const left = await leftCopies(ledger);
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
  await ledger.remember(LEFT, [...(await leftCopies(ledger)), deviceId]);
}
