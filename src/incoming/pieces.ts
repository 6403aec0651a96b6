import type { CsvFile } from '../exchange/csv/read-file.ts';
import { portionsOf } from '../ledger/bundle/portions.ts';
import type { WholeLibrary } from '../ledger/whole-library.ts';

/** What a worker is given to read: a library, which comes in pieces, or sheets of readings. */
export type ReadRequest = { readonly library: Blob } | { readonly files: readonly CsvFile[] };

/** Documents in one piece: what the page takes in one go, readings and all. */
const PIECE = 25;

/** A library in pieces that are each soon taken. */
export const piecesOf = (whole: WholeLibrary): Iterable<WholeLibrary> => portionsOf(whole, PIECE);
