import { ConflictError, StorageError } from '../../src/ledger/errors.ts';
import type { MergeReport } from '../../src/ledger/merge.ts';
import { FormatError } from '../../shared/errors.ts';
import { hrefOf } from '../frame/routes.ts';

/** Something that went wrong, for the one place where the page says so. */
export interface Trouble {
  /** What happened, what is safe, what to do. */
  readonly words: string;
  /** Further lines, for example each problem of a file. */
  readonly details?: readonly string[];
  /** The one button. */
  readonly act?: { readonly words: string; readonly run: () => void };
  /** Something that cannot be undone. */
  readonly grave?: boolean;
  /** Nothing goes on in this window until the act is done: it cannot be waved away. */
  readonly stays?: boolean;
  /** What was thrown, where a report of it may help. */
  readonly cause?: unknown;
}

const reload = { words: 'Reload', run: () => location.reload() };
const toCopies = { words: 'To the copies', run: () => (location.hash = hrefOf({ at: 'setup' })) };

function ofStorage(error: StorageError): Trouble {
  const { message: words, trouble } = error;
  if (trouble === 'newer' || trouble === 'closed') return { words, act: reload, stays: true };
  return { words, cause: error, ...(trouble === 'full' && { act: toCopies }) };
}

/** How much of the library a merge brought. */
export const thingsIn = ({ documents, acts }: MergeReport) =>
  documents.new + documents.newer + documents.apart + acts.new;

export function broughtBackNotice(reports: readonly MergeReport[]): Trouble {
  const things = reports.reduce((sum, report) => sum + thingsIn(report), 0);
  return {
    words: `The browser had lost the library, or a part of it. All of it was brought back from its second copy: ${things} things. Save a backup file all the same: the second copy is in the same browser.`,
  };
}

/** Puts what was thrown into words. */
export function troubleOf(error: unknown): Trouble {
  if (error instanceof StorageError) return ofStorage(error);
  if (error instanceof ConflictError) return { words: error.message };
  if (error instanceof FormatError)
    return {
      words: 'That could not be kept as it was entered. Nothing was changed.',
      details: error.problems.map(({ where, what }) => `${where}: ${what}`),
    };
  const reason = error instanceof Error ? error.message : String(error);
  return {
    words: 'The bench came upon something that it does not understand. What was kept before is safe.',
    details: [reason],
    act: reload,
    cause: error,
  };
}
