import type { JournalRequest } from './files.ts';
import type { JournalResponse } from './worker.ts';

/** A worker, as far as a journal needs one. */
export interface WorkerLike {
  onmessage: ((event: MessageEvent<JournalResponse & { readonly number: number }>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: JournalRequest & { readonly number: number }): void;
  terminate(): void;
}

/**
 * The last changes, written outside the database before they are called kept. An engine whose own log was torn by the
 * browser's death may throw the whole database away at a later opening; what the second copy has not yet got is here.
 */
export interface Journal {
  /** Entries that windows now gone have left; any of them may be cut off. */
  readonly left: () => Promise<readonly string[]>;
  /** Resolves when the entry is with the system. Never rejects: `trouble` says what went wrong. */
  readonly append: (line: string) => Promise<void>;
  /** How many entries were appended, to give to `forget`. */
  readonly count: () => number;
  /** Empties the journal, unless something was appended since there were `count` entries. */
  readonly forget: (count: number) => Promise<void>;
  /** Why the journal does not take entries. */
  readonly trouble: () => string | undefined;
  readonly close: () => void;
}

/** What earlier windows have left may be the only place where it is: it is waited for so much longer. Our own number. */
const LEFT_PATIENCE = 20;

/**
 * @param worker Runs `worker.ts`.
 * @param patienceMs How long an answer is waited for: a change that the database has is not held up by its journal.
 */
export function openJournal(worker: WorkerLike, patienceMs = 3000): Journal {
  const waiting = new Map<number, (granted: JournalResponse) => void>();
  let asked = 0;
  let appended = 0;
  let broken: string | undefined;
  let trouble: string | undefined;
  /** What earlier windows left could not be read: nothing is forgotten then, and the next opening reads it. */
  let unread: string | undefined;

  worker.onmessage = ({ data }) => waiting.get(data.number)?.(data);
  worker.onerror = ({ message }) => {
    broken = message || 'The journal cannot be opened.';
    for (const answer of waiting.values()) answer({ trouble: broken });
  };

  async function answerTo(wish: JournalRequest, patience: number): Promise<JournalResponse> {
    if (broken !== undefined) return { trouble: broken };
    const number = ++asked;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const granted = await new Promise<JournalResponse>((resolve) => {
      waiting.set(number, resolve);
      timer = setTimeout(() => resolve({ trouble: 'The journal does not answer.' }), patience);
      worker.postMessage({ number, ...wish });
    });
    clearTimeout(timer);
    waiting.delete(number);
    return granted;
  }

  async function ask(wish: JournalRequest, patience = patienceMs): Promise<readonly string[]> {
    const granted = await answerTo(wish, patience);
    trouble = 'trouble' in granted ? granted.trouble : undefined;
    return 'trouble' in granted ? [] : granted.lines;
  }

  return {
    async left() {
      const lines = await ask({ wish: 'read' }, LEFT_PATIENCE * patienceMs);
      unread = trouble;
      return lines;
    },
    async append(line) {
      appended++;
      await ask({ wish: 'append', line });
    },
    count: () => appended,
    async forget(count) {
      if (unread === undefined) await ask({ wish: 'forget', count });
    },
    trouble: () => trouble ?? unread,
    close: () => worker.terminate(),
  };
}
