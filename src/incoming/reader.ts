import { FormatError } from '../../shared/errors.ts';
import type { CsvOutcome } from '../exchange/csv/read-csv.ts';
import type { CsvFile } from '../exchange/csv/read-file.ts';
import type { ProgressOptions } from '../ledger/patience.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';
import { piecesOf, type ReadRequest, type ReadResponse } from './pieces.ts';

/** Reads what comes from outside. */
export interface Reader {
  /**
   * Reads a library piece by piece; the next one is read when the last one is taken, so that a library of any size needs
   * no more memory than a small one.
   *
   * @throws FormatError when it is no library; pieces before its fault have been taken by then.
   */
  readonly library: (
    file: Blob,
    patience: ProgressOptions,
    take: (piece: WholeLibrary) => Promise<unknown>,
  ) => Promise<void>;
  readonly readings: (files: readonly CsvFile[], patience: ProgressOptions) => Promise<CsvOutcome>;
}

/** A worker, as far as a reader needs one. */
export interface ReadingWorker {
  onmessage: ((event: MessageEvent<ReadResponse>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(job: ReadRequest): void;
  terminate(): void;
}

/** Reads on the page's own thread, in slices where it can: for where there are no workers. */
export const readHere: Reader = {
  async library(file, patience, take) {
    const { backupPortions } = await import('../ledger/bundle/read.ts');
    for await (const portion of backupPortions(file, patience))
      for (const piece of piecesOf(portion)) {
        await take(piece);
        patience.signal?.throwIfAborted();
      }
  },
  async readings(files, { signal, onProgress }) {
    const { readCsv } = await import('../exchange/csv/read-csv.ts');
    return readCsv(files, { ...(signal && { signal }), ...(onProgress && { progress: onProgress }) });
  },
};

/**
 * What a worker makes of a job; undefined when it did not start. A job that is given up ends it.
 *
 * @param resultOf The result, once the worker says it.
 */
async function doneBy<T>(
  worker: ReadingWorker,
  job: ReadRequest,
  { signal, onProgress }: ProgressOptions,
  resultOf: (said: ReadResponse) => T | undefined | Promise<T | undefined>,
): Promise<T | undefined> {
  let hasSpoken = false;
  try {
    return await new Promise((resolve, reject) => {
      signal?.throwIfAborted();
      signal?.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
      worker.onerror = ({ message }) => (hasSpoken ? reject(new Error(message)) : resolve(undefined));
      const hear = async (said: ReadResponse) => {
        if ('share' in said) onProgress?.(said.share);
        else if ('problems' in said) reject(new FormatError(said.problems));
        else if ('failed' in said) reject(new Error(said.failed));
        const result = await resultOf(said);
        if (result !== undefined) resolve(result);
      };
      worker.onmessage = ({ data }) => {
        hasSpoken = true;
        hear(data).catch(reject);
      };
      worker.postMessage(job);
    });
  } finally {
    worker.terminate();
  }
}

/** A file of so few bytes is read before a worker would have started. Common practice, no source. */
const SMALL_BYTES = 50_000;

/**
 * Reads in workers of their own, but for what is small.
 *
 * @param start Starts one that runs `worker.ts`. Where that fails, reading goes on here.
 */
export function readerIn(start: () => ReadingWorker): Reader {
  return {
    async library(file, patience, take) {
      if (file.size < SMALL_BYTES) return readHere.library(file, patience, take);
      const worker = start();
      const isDone = await doneBy(worker, { job: 'library', file }, patience, async (said) => {
        if ('piece' in said) {
          await take(said.piece);
          worker.postMessage({ job: 'more' });
        }
        return 'whole' in said ? true : undefined;
      });
      if (!isDone) await readHere.library(file, patience, take);
    },
    async readings(files, patience) {
      const size = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
      if (size < SMALL_BYTES) return readHere.readings(files, patience);
      const outcome = await doneBy(start(), { job: 'readings', files }, patience, (said) =>
        'outcome' in said ? said.outcome : undefined,
      );
      return outcome ?? readHere.readings(files, patience);
    },
  };
}
