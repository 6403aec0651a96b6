import { workerClient, WorkerError, type WorkerLike } from '../../workers/client.ts';
import type { JournalRequest } from './files.ts';

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
  const client = workerClient<JournalRequest, readonly string[]>(() => worker);
  let appended = 0;
  /** A journal whose worker has died is not asked again. */
  let broken: string | undefined;
  let trouble: string | undefined;
  /** What earlier windows left could not be read: nothing is forgotten then, and the next opening reads it. */
  let unread: string | undefined;

  async function answerTo(wish: JournalRequest, patience: number): Promise<readonly string[]> {
    if (broken !== undefined) throw new Error(broken);
    let timer: ReturnType<typeof setTimeout> | undefined;
    const silence = new Promise<never>((_, reject) => {
      timer = setTimeout(() => reject(new Error('The journal does not answer.')), patience);
    });
    try {
      return await Promise.race([client.ask(wish), silence]);
    } finally {
      clearTimeout(timer);
    }
  }

  async function ask(wish: JournalRequest, patience = patienceMs): Promise<readonly string[]> {
    try {
      const lines = await answerTo(wish, patience);
      trouble = undefined;
      return lines;
    } catch (error) {
      trouble = (error as Error).message || 'The journal cannot be opened.';
      if (error instanceof WorkerError) broken = trouble;
      return [];
    }
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
    close: client.close,
  };
}
