import type { Id } from '../../shared/ids.ts';
import type { Journal } from './journal/journal.ts';
import { takeInLeft } from './journal/take-in.ts';
import { openLedger, type Ledger, type LedgerOptions } from './ledger.ts';
import type { MergeReport } from './merge.ts';
import { openBrowserMirror, type Mirror } from './mirror.ts';
import { startMirroring, type Mirroring } from './mirroring.ts';
import {
  bringBack,
  claimCopies,
  findLostCopies,
  isOwnPast,
  leaveCopy,
  type LostCopy,
} from './second-copy.ts';

/** The second copy of an open library, and what the library has lost of it. */
export interface SecondCopy {
  readonly mirroring: Mirroring;
  /** Copies that hold what the library does not, for the maker to decide on. */
  readonly lost: readonly LostCopy[];
  readonly bringBack: (deviceId: Id) => Promise<MergeReport>;
  /** Does not offer a copy again. */
  readonly leave: (deviceId: Id) => Promise<void>;
}

export interface OpenedLibrary {
  readonly ledger: Ledger;
  /** Absent where the browser has no place for it, or where the library can only be read. */
  readonly copy?: SecondCopy;
  /** What was brought back by itself: the whole library, or the last changes before the browser lost it. */
  readonly broughtBack: readonly MergeReport[];
}

/** Two windows do not bring the same copy back at once, where the browser can see to that. */
async function alone<T>(work: () => Promise<T>): Promise<T> {
  const locks = (globalThis.navigator as Navigator | undefined)?.locks;
  return locks ? await locks.request('hundredths second copy', work) : work();
}

async function isEmpty(ledger: Ledger): Promise<boolean> {
  const { live, deleted, setAside } = await ledger.read();
  return Object.values(live).every((kind) => kind.length === 0) && deleted.length + setAside.length === 0;
}

/** Where the library is kept besides its database. */
export interface CopyPlaces {
  readonly openMirror?: () => Promise<Mirror | undefined>;
  readonly journal?: Journal | undefined;
}

async function withCopy(
  ledger: Ledger,
  mirror: Mirror,
  journal: Journal | undefined,
): Promise<OpenedLibrary> {
  return alone(async () => {
    if (await isEmpty(ledger)) await claimCopies(ledger, mirror);
    const left = (await journal?.left()) ?? [];
    const broughtBack = await takeInLeft(ledger, left);
    const mirroring = startMirroring(ledger, mirror, {
      isBehind: left.length > 0,
      ...(journal && { journal }),
    });
    const back = (deviceId: Id) => bringBack(ledger, mirror, deviceId, mirroring);
    const lost: LostCopy[] = [];
    for (const found of await findLostCopies(ledger, mirror)) {
      if (await isOwnPast(ledger, found)) broughtBack.push(await back(found.deviceId));
      else lost.push(found);
    }
    const copy = {
      mirroring,
      lost,
      bringBack: (deviceId: Id) => alone(() => back(deviceId)),
      leave: (deviceId: Id) => leaveCopy(ledger, deviceId),
    };
    return { ledger, copy, broughtBack };
  });
}

/**
 * Opens the library of this browser with its second copy. What the browser has lost of it, all or the last changes, is
 * brought back at once. A copy of which nothing says that it was this library is left as it is, for the maker to decide.
 *
 * @throws StorageError when the library cannot be opened, in words.
 */
export async function openLibrary(
  options: LedgerOptions = {},
  { openMirror = openBrowserMirror, journal }: CopyPlaces = {},
): Promise<OpenedLibrary> {
  const mirror = await openMirror();
  const ledger = await openLedger({
    ...options,
    ...(mirror && { knownCount: mirror.countOf }),
    ...(journal && { journal }),
  });
  const plain = { ledger, broughtBack: [] };
  if (!mirror || !ledger.writable) return plain;
  // A copy that cannot be read never stands in the way of the library.
  return withCopy(ledger, mirror, journal).catch(() => plain);
}
