import { FormatError } from '../../shared/errors.ts';
import type { CsvOutcome } from '../exchange/csv/read-csv.ts';
import type { CsvFile } from '../exchange/csv/read-file.ts';
import type { ProgressOptions } from '../ledger/patience.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';
import { joined } from '../ledger/bundle/portions.ts';
import type { ReadRequest, ReadResponse } from './pieces.ts';

/** Reads what comes from outside. */
export interface Reader {
  /** @throws FormatError when it is no library. */
  readonly library: (file: Blob, patience: ProgressOptions) => Promise<WholeLibrary>;
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
  async library(file, patience) {
    const { readBackupFile } = await import('../ledger/bundle/read.ts');
    return readBackupFile(file, patience);
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
  resultOf: (said: ReadResponse) => T | undefined,
): Promise<T | undefined> {
  let hasSpoken = false;
  try {
    return await new Promise((resolve, reject) => {
      signal?.throwIfAborted();
      signal?.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
      worker.onerror = ({ message }) => (hasSpoken ? reject(new Error(message)) : resolve(undefined));
      worker.onmessage = ({ data }) => {
        hasSpoken = true;
        if ('share' in data) onProgress?.(data.share);
        else if ('problems' in data) reject(new FormatError(data.problems));
        else if ('failed' in data) reject(new Error(data.failed));
        const result = resultOf(data);
        if (result !== undefined) resolve(result);
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
    async library(file, patience) {
      if (file.size < SMALL_BYTES) return readHere.library(file, patience);
      const pieces: WholeLibrary[] = [];
      const whole = await doneBy(start(), { job: 'library', file }, patience, (said) => {
        if ('piece' in said) pieces.push(said.piece);
        return 'whole' in said ? joined(pieces) : undefined;
      });
      return whole ?? readHere.library(file, patience);
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
