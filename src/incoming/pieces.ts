import type { Problem } from '../../shared/errors.ts';
import type { CsvOutcome } from '../exchange/csv/read-csv.ts';
import type { CsvFile } from '../exchange/csv/read-file.ts';
import { slicesOf } from '../ledger/slices.ts';
import type { WholeLibrary } from '../ledger/store-library.ts';

/** What a worker is given to read. */
export type Job =
  | { readonly job: 'library'; readonly file: Blob }
  | { readonly job: 'readings'; readonly files: readonly CsvFile[] };

/** What it says, in this order: how much is done, the pieces of a library, and one of the last four. */
export type Said =
  | { readonly share: number }
  | { readonly piece: WholeLibrary }
  | { readonly whole: true }
  | { readonly outcome: CsvOutcome }
  | { readonly problems: readonly Problem[] }
  | { readonly failed: string };

const NOTHING: WholeLibrary = { documents: [], acts: [], attachments: [], setAside: [] };

/** A library in pieces that are each soon taken. */
export function* piecesOf(whole: WholeLibrary): Generator<WholeLibrary> {
  const { documents, acts, attachments, setAside, notChosen = [] } = whole;
  for (const slice of slicesOf(documents)) yield { ...NOTHING, documents: slice };
  for (const slice of slicesOf(acts)) yield { ...NOTHING, acts: slice };
  for (const slice of slicesOf(setAside)) yield { ...NOTHING, setAside: slice };
  for (const slice of slicesOf(notChosen)) yield { ...NOTHING, notChosen: slice };
  for (const picture of attachments) yield { ...NOTHING, attachments: [picture] };
}

/** The library that pieces make up. */
export function joined(pieces: readonly WholeLibrary[]): WholeLibrary {
  return {
    documents: pieces.flatMap(({ documents }) => documents),
    acts: pieces.flatMap(({ acts }) => acts),
    attachments: pieces.flatMap(({ attachments }) => attachments),
    setAside: pieces.flatMap(({ setAside }) => setAside),
    notChosen: pieces.flatMap(({ notChosen = [] }) => notChosen),
  };
}
