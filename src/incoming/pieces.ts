import type { Problem } from '../../shared/errors.ts';
import type { CsvOutcome } from '../exchange/csv/read-csv.ts';
import type { CsvFile } from '../exchange/csv/read-file.ts';
import { portionsOf } from '../ledger/bundle/portions.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';

/** What a worker is given to read; `more` asks for the next piece of a library, once the last one is taken. */
export type ReadRequest =
  | { readonly job: 'library'; readonly file: Blob }
  | { readonly job: 'more' }
  | { readonly job: 'readings'; readonly files: readonly CsvFile[] };

/** What it says, in this order: how much is done, the pieces of a library, and one of the last four. */
export type ReadResponse =
  | { readonly share: number }
  | { readonly piece: WholeLibrary }
  | { readonly whole: true }
  | { readonly outcome: CsvOutcome }
  | { readonly problems: readonly Problem[] }
  | { readonly failed: string };

/** Documents in one piece: what the page takes in one go, readings and all. */
const PIECE = 25;

/** A library in pieces that are each soon taken. */
export const piecesOf = (whole: WholeLibrary): Iterable<WholeLibrary> => portionsOf(whole, PIECE);
