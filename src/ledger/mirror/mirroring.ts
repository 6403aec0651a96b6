import type { Id } from '../../../shared/ids.ts';
import type { Journal } from '../journal/journal.ts';
import type { Ledger } from '../ledger-face.ts';
import type { LedgerChange } from '../notices.ts';
import type { Changed } from '../whole-library.ts';
import type { Mirror, Source } from './mirror.ts';

/** Keeps a second copy in step with the library. */
export interface Mirroring {
  /** When the copy last caught up with the library; absent before. */
  readonly at: () => Date | undefined;
  /** Why the copy could not be written, when it last could not. */
  readonly trouble: () => unknown;
  /** Tells whenever that may have changed. */
  readonly onChange: (listener: () => void) => () => void;
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
  /** What windows that are gone have left in the journal, and in how many entries. */
  readonly left?: Changed & { readonly entries: number };
  /** Resolves when the next portion of a whole new copy may be worked at: a change that is being kept goes before it. */
  readonly pause?: () => Promise<void>;
}

/** Changes of a few keys go into one piece. Common practice, no source. */
const DELAY_MS = 2000;
/** Where it is remembered that what was removed for good still stands in older pieces. */
const UNTIDY = 'second copy untidy';

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

async function* paused<T>(items: AsyncIterable<T>, pause: () => Promise<void>): AsyncGenerator<T> {
  for await (const item of items) {
    yield item;
    await pause();
  }
}

async function write(
  ledger: Ledger,
  mirror: Mirror,
  { ids, rounds, all }: Waiting,
  pause: () => Promise<void>,
): Promise<void> {
  const source: Source = {
    deviceId: ledger.deviceId,
    async portions(changed) {
      const read = await ledger.portions(changed);
      return { ...read, portions: paused(read.portions, pause) };
    },
  };
  if (all) {
    await mirror.copy(source, 'all');
    await ledger.remember(UNTIDY, false);
    return;
  }
  const changed = { ids: [...ids], rounds: [...rounds] };
  await mirror.copy(source, changed);
  if ((await ledger.goneOf(changed.ids)).length > 0) await ledger.remember(UNTIDY, true);
}

/**
 * Brings the copy up to the library, and then follows it. Every window mirrors its own changes; what it did not get to
 * before it died is made good when the library is next opened.
 */
export function startMirroring(
  ledger: Ledger,
  mirror: Mirror,
  {
    delayMs = DELAY_MS,
    clock = () => new Date(),
    journal,
    left,
    pause = () => Promise.resolve(),
  }: MirroringOptions = {},
): Mirroring {
  let waiting: Waiting = { ids: new Set(left?.ids), rounds: new Set(left?.rounds), all: false };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<void> = Promise.resolve();
  let at: Date | undefined;
  let trouble: unknown;
  const listeners = new Set<() => void>();
  const show = (now: unknown) => {
    trouble = now;
    for (const listener of [...listeners]) listener();
  };

  async function writeWaiting() {
    const now = waiting;
    const noted = journal?.count() ?? 0;
    waiting = nothing();
    try {
      if (!isNothing(now)) await write(ledger, mirror, now, pause);
      await journal?.forget(noted);
      at = clock();
      show(undefined);
    } catch (error) {
      waiting = join(waiting, now);
      show(error);
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

  /** What earlier windows did not get to, and did not leave in the journal, is made good by a whole new copy. */
  async function catchUp() {
    try {
      const { count } = await ledger.portions({ ids: [], rounds: [] });
      const missing = count - (await mirror.countOf(ledger.deviceId));
      const isExplained = missing >= 0 && missing <= (left?.entries ?? 0);
      // A device that has taken over a library has no copy of what was there before it.
      const isNew = (await mirror.piecesOf(ledger.deviceId)) === 0;
      if (isNew || !isExplained || (await ledger.recall(UNTIDY)) === true) waiting.all = true;
      else if (await mirror.isScattered(ledger.deviceId)) await mirror.compact(ledger.deviceId);
    } catch (error) {
      show(error);
    }
  }

  writing = catchUp();
  void flush();

  return {
    at: () => at,
    trouble: () => trouble,
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    flush,
    async stop() {
      unlisten();
      await flush();
    },
  };
}
