import type { Id } from '../../shared/ids.ts';
import type { Ledger } from '../ledger/ledger-face.ts';
import type { LedgerChange } from '../ledger/notices.ts';
import { forgetRead } from './guest.ts';
import { SentMemory } from './sent.ts';

/** What has changed here and has not been sent. */
export interface Waiting {
  readonly all: boolean;
  readonly ids: readonly Id[];
  readonly rounds: readonly Id[];
  /** Readings among it, as far as they were counted. */
  readonly readings: number;
  /** Since when; absent when nothing waits. */
  readonly since?: string;
}

export const NOTHING_WAITS: Waiting = { all: false, ids: [], rounds: [], readings: 0 };

export const isWaiting = ({ all, ids, rounds }: Waiting): boolean =>
  all || ids.length > 0 || rounds.length > 0;

export function joinWaiting(a: Waiting, b: Waiting): Waiting {
  const since = [a.since, b.since].find((one) => one !== undefined);
  return {
    all: a.all || b.all,
    ids: [...new Set([...a.ids, ...b.ids])],
    rounds: [...new Set([...a.rounds, ...b.rounds])],
    readings: a.readings + b.readings,
    ...(since !== undefined && { since }),
  };
}

/** What a change of the library leaves to be sent. */
export function waitingOf(change: LedgerChange, since: string): Waiting {
  if (change.what === 'closed' || change.isShared) return NOTHING_WAITS;
  if (change.what === 'acts') return { ...NOTHING_WAITS, rounds: [change.roundId], readings: 1, since };
  return change.ids === 'all'
    ? { ...NOTHING_WAITS, all: true, since }
    : { ...NOTHING_WAITS, ids: change.ids, since };
}

/** How far this device and its shared case have come with each other. */
export interface Progress {
  /** What the device is called there; not the device of the ledger, which no server needs to know. */
  readonly device: Id;
  /** Up to where changes were taken in, in the server's own words. */
  readonly since: string;
  /** Whether the server was told that something was sent. */
  readonly isMarked: boolean;
  /** What was sent last. */
  readonly last?: string;
  readonly waiting: Waiting;
  /** Changes that the library had when this was noted: with any other count something was not noted. */
  readonly count: number;
}

const PROGRESS = 'shared case progress';

export const countOf = async (ledger: Ledger) => (await ledger.portions({ ids: [], rounds: [] })).count;

/** As it was noted last, with everything waiting where that is not all. */
export async function readProgress(ledger: Ledger): Promise<Progress> {
  const count = await countOf(ledger);
  const noted = (await ledger.recall(PROGRESS)) as Progress | undefined;
  const all: Waiting = { ...NOTHING_WAITS, all: true, since: ledger.now() };
  if (!noted) {
    // An empty library has nothing to send; what comes into it need not be compared.
    const waiting = (await ledger.read()).isEmpty ? NOTHING_WAITS : all;
    return { device: ledger.newId(), since: '0', isMarked: false, waiting, count };
  }
  return noted.count === count ? noted : { ...noted, waiting: joinWaiting(noted.waiting, all) };
}

export const noteProgress = async (ledger: Ledger, progress: Omit<Progress, 'count'>) =>
  ledger.remember(PROGRESS, { ...progress, count: await countOf(ledger) } satisfies Progress);

export async function forgetProgress(ledger: Ledger): Promise<void> {
  await (await SentMemory.open(ledger)).clear();
  await forgetRead(ledger);
  await ledger.remember(PROGRESS, undefined);
}
