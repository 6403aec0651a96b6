import type { Id } from '../../shared/ids.ts';
import type { Journal } from './journal/journal.ts';
import { changedIn, readEntries, takeInLeft } from './journal/take-in.ts';
import { openLedger } from './ledger.ts';
import type { Ledger, LedgerOptions } from './ledger-face.ts';
import { joinReports, type MergeReport } from './merge.ts';
import { openBrowserMirror, type Mirror } from './mirror/mirror.ts';
import { startMirroring, type Mirroring } from './mirror/mirroring.ts';
import type { Unreadable } from './mirror/pieces.ts';
import {
  bringBack,
  claimCopies,
  findLostCopies,
  isOwnPast,
  leaveCopy,
  type LostCopy,
} from './mirror/second-copy.ts';

/** What keeps a change from being kept in more than one place. */
export interface CopyTrouble {
  readonly of: 'journal' | 'second copy';
  readonly cause: unknown;
}

/** The second copy of an open library, and what the library has lost of it. */
export interface SecondCopy {
  readonly mirroring: Mirroring;
  /** Copies that hold what the library does not, for the maker to decide on. */
  readonly lost: readonly LostCopy[];
  readonly bringBack: (deviceId: Id) => Promise<LostCopy>;
  /** Does not offer a copy again. */
  readonly leave: (deviceId: Id) => Promise<void>;
  /** Pieces that could not be read when others took their place: for the maker to keep as files, or to let go. */
  readonly setAside: Mirror['setAside'];
  readonly removeSetAside: Mirror['removeSetAside'];
}

export interface OpenedLibrary {
  readonly ledger: Ledger;
  /** Absent where the browser has no place for it, or where the library can only be read. */
  readonly copy?: SecondCopy;
  /** Why there is no second copy although the browser has a place for it, or why older copies could not be read. */
  readonly copyFault?: unknown;
  /** What is wrong with journal and second copy now; empty when nothing is. */
  readonly copyTroubles: () => readonly CopyTrouble[];
  /** What was brought back by itself: the whole library, or the last changes before the browser lost it. */
  readonly broughtBack: readonly BroughtBack[];
}

/** What came back, and what could not be read of the copy that it came from. */
export interface BroughtBack {
  readonly report: MergeReport;
  readonly unreadable: readonly Unreadable[];
}

/** Two windows do not bring the same copy back at once, where the browser can see to that. */
async function alone<T>(work: () => Promise<T>): Promise<T> {
  const locks = (globalThis.navigator as Navigator | undefined)?.locks;
  return locks ? await locks.request('hundredths second copy', work) : work();
}

/** Where the library is kept besides its database. */
export interface CopyPlaces {
  readonly openMirror?: () => Promise<Mirror | undefined>;
  readonly journal?: Journal | undefined;
  /** Resolves when there is time for the next portion of a whole new copy. */
  readonly pause?: (() => Promise<void>) | undefined;
}

async function withCopy(
  ledger: Ledger,
  mirror: Mirror,
  { journal, pause }: Pick<CopyPlaces, 'journal' | 'pause'>,
): Promise<OpenedLibrary> {
  return alone(async () => {
    if ((await ledger.read()).isEmpty) await claimCopies(ledger, mirror);
    const { entries, unreadable } = await readEntries((await journal?.left()) ?? []);
    for (const { what, bytes } of unreadable) await mirror.putAside(what.name, bytes);
    const broughtBack: BroughtBack[] = [
      ...(await takeInLeft(ledger, entries)).map((report) => ({ report, unreadable: [] })),
      ...unreadable.map(({ what }) => ({ report: joinReports([]), unreadable: [what] })),
    ];
    const mirroring = startMirroring(ledger, mirror, {
      left: { ...changedIn(entries), entries: entries.length },
      ...(journal && { journal }),
      ...(pause && { pause }),
    });
    const back = (deviceId: Id) => bringBack(ledger, mirror, deviceId, mirroring);
    const lost: LostCopy[] = [];
    let fault: Pick<OpenedLibrary, 'copyFault'> = {};
    try {
      for (const found of await findLostCopies(ledger, mirror, mirroring)) {
        if (await isOwnPast(ledger, found)) broughtBack.push(await back(found.deviceId));
        else lost.push(found);
      }
    } catch (error) {
      fault = { copyFault: error };
    }
    const copy = {
      mirroring,
      lost,
      bringBack: (deviceId: Id) => alone(() => back(deviceId)),
      leave: (deviceId: Id) => leaveCopy(ledger, deviceId),
      setAside: mirror.setAside,
      removeSetAside: mirror.removeSetAside,
    };
    return {
      ledger,
      copy,
      broughtBack,
      ...fault,
      copyTroubles: troublesOf(journal, mirroring, fault.copyFault),
    };
  });
}

function troublesOf(
  journal: Pick<Journal, 'trouble'> | undefined,
  mirroring: Pick<Mirroring, 'trouble'> | undefined,
  fault: unknown,
): () => readonly CopyTrouble[] {
  return () => {
    const [ofJournal, ofCopy] = [journal?.trouble(), mirroring?.trouble() ?? fault];
    return [
      ...(ofJournal === undefined ? [] : [{ of: 'journal' as const, cause: ofJournal }]),
      ...(ofCopy === undefined ? [] : [{ of: 'second copy' as const, cause: ofCopy }]),
    ];
  };
}

/**
 * Opens the library of this browser with its second copy. What the browser has lost of it, all or the last changes, is
 * brought back at once. A copy of which nothing says that it was this library is left as it is, for the maker to decide.
 *
 * @throws StorageError when the library cannot be opened, in words.
 */
export async function openLibrary(
  options: LedgerOptions = {},
  { openMirror = openBrowserMirror, journal, pause }: CopyPlaces = {},
): Promise<OpenedLibrary> {
  let fault: { readonly copyFault?: unknown } = {};
  // A copy that cannot be read never stands in the way of the library, and never falls out of use unseen.
  const without = (error: unknown) => void (fault = { copyFault: error });
  const mirror = await openMirror().catch(without);
  const ledger = await openLedger({
    ...options,
    ...(mirror && { knownCount: (deviceId: Id) => mirror.countOf(deviceId).catch(() => 0) }),
    ...(journal && { journal }),
  });
  const opened =
    mirror && ledger.writable && (await withCopy(ledger, mirror, { journal, pause }).catch(without));
  const copyTroubles = troublesOf(ledger.writable ? journal : undefined, undefined, fault.copyFault);
  return opened || { ledger, broughtBack: [], ...fault, copyTroubles };
}
