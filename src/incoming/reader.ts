import type { CsvOutcome } from '../exchange/csv/read-csv.ts';
import type { CsvFile } from '../exchange/csv/read-file.ts';
import type { ProgressOptions } from '../ledger/patience.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';
import { askOnce, type WorkerLike } from '../workers/client.ts';
import { piecesOf, type ReadRequest } from './pieces.ts';

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

/** A file of so few bytes is read before a worker would have started. Common practice, no source. */
const SMALL_BYTES = 50_000;

/**
 * Reads in workers of their own, but for what is small.
 *
 * @param start Starts one that runs `worker.ts`. Where that fails, reading goes on here.
 */
export function readerIn(start: () => WorkerLike): Reader {
  return {
    async library(file, patience, take) {
      const here = () => readHere.library(file, patience, take);
      if (file.size < SMALL_BYTES) return here();
      const request: ReadRequest = { library: file };
      await askOnce<ReadRequest, unknown, WholeLibrary>(start, request, { ...patience, take }, here);
    },
    async readings(files, patience) {
      const here = () => readHere.readings(files, patience);
      const size = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
      return size < SMALL_BYTES ? here() : askOnce<ReadRequest, CsvOutcome>(start, { files }, patience, here);
    },
  };
}
