import type { Id } from '../../shared/ids.ts';
import type { Journal } from './journal/journal.ts';
import type { Ledger } from './ledger.ts';
import type { Mirror } from './mirror.ts';
import type { LedgerChange } from './notices.ts';

/** Keeps a second copy in step with the library. */
export interface Mirroring {
  /** When the copy last caught up with the library; absent before. */
  readonly at: () => Date | undefined;
  /** Why the copy could not be written, when it last could not. */
  readonly trouble: () => unknown;
  /** Writes what is waiting, now. Never rejects: what could not be written waits for the next time. */
  readonly flush: () => Promise<void>;
  readonly stop: () => Promise<void>;
}

export interface MirroringOptions {
  /** How long a change may wait for others, ms. */
  readonly delayMs?: number;
  readonly clock?: () => Date;
  /** Holds what the copy has not got yet. */
  readonly journal?: Pick<Journal, 'count' | 'forget'>;
  /** A window died before the copy had its changes; the name of the last piece may tell of one that was never whole. */
  readonly isBehind?: boolean;
}

/** Changes of a few keys go into one piece. Common practice, no source. */
const DELAY_MS = 2000;
/** More pieces than this are put together when the library is next opened. Common practice, no source. */
const MANY_PIECES = 50;

interface Waiting {
  ids: Set<Id>;
  rounds: Set<Id>;
  all: boolean;
}

const nothing = (): Waiting => ({ ids: new Set(), rounds: new Set(), all: false });
const isNothing = ({ ids, rounds, all }: Waiting) => ids.size === 0 && rounds.size === 0 && !all;

function join(a: Waiting, b: Waiting): Waiting {
  return {
    ids: new Set([...a.ids, ...b.ids]),
    rounds: new Set([...a.rounds, ...b.rounds]),
    all: a.all || b.all,
  };
}

function waitingFor(change: LedgerChange): Waiting {
  const waiting = nothing();
  if (change.what === 'documents') {
    if (change.ids === 'all') waiting.all = true;
    else waiting.ids = new Set(change.ids);
  }
  if (change.what === 'acts') waiting.rounds = new Set([change.roundId]);
  return waiting;
}

async function write(ledger: Ledger, mirror: Mirror, { ids, rounds, all }: Waiting): Promise<void> {
  const renew = () => mirror.renew(ledger.deviceId, () => ledger.readChanged('all'), ledger.newId());
  if (all) return renew();
  const part = await ledger.readChanged({ ids: [...ids], rounds: [...rounds] });
  const found = new Set([...part.documents, ...part.setAside].map(({ id }) => id));
  // What was removed for good is not to come back from the copy.
  const purged = [...ids].some((id) => !found.has(id));
  return purged ? renew() : mirror.add(ledger.deviceId, part, ledger.newId());
}

/**
 * Brings the copy up to the library, and then follows it. Every window mirrors its own changes; what it did not get to
 * before it died is made good when the library is next opened.
 */
export function startMirroring(
  ledger: Ledger,
  mirror: Mirror,
  { delayMs = DELAY_MS, clock = () => new Date(), journal, isBehind = false }: MirroringOptions = {},
): Mirroring {
  let waiting: Waiting = { ...nothing(), all: isBehind };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<void> = Promise.resolve();
  let at: Date | undefined;
  let trouble: unknown;

  async function writeWaiting() {
    const now = waiting;
    const noted = journal?.count() ?? 0;
    waiting = nothing();
    try {
      if (!isNothing(now)) await write(ledger, mirror, now);
      await journal?.forget(noted);
      at = clock();
      trouble = undefined;
    } catch (error) {
      waiting = join(waiting, now);
      trouble = error;
    }
  }

  function flush() {
    clearTimeout(timer);
    timer = undefined;
    writing = writing.then(writeWaiting);
    return writing;
  }

  const unlisten = ledger.onChange((change) => {
    if (change.what === 'closed' || !change.here) return;
    waiting = join(waiting, waitingFor(change));
    timer ??= setTimeout(() => void flush(), delayMs);
  });

  /** What earlier windows did not get to, and many pieces, are made good by one whole piece. */
  async function catchUp() {
    try {
      const { count } = await ledger.readChanged({ ids: [], rounds: [] });
      const known = await mirror.countOf(ledger.deviceId);
      if (known !== count || (await mirror.piecesOf(ledger.deviceId)) > MANY_PIECES) waiting.all = true;
    } catch (error) {
      trouble = error;
    }
  }

  writing = catchUp();
  void flush();

  return {
    at: () => at,
    trouble: () => trouble,
    flush,
    async stop() {
      unlisten();
      await flush();
    },
  };
}
