import { ConflictError, StorageError } from '../../src/ledger/errors.ts';
import type { MergeReport } from '../../src/ledger/merge.ts';
import type { Unreadable } from '../../src/ledger/mirror/pieces.ts';
import type { BroughtBack } from '../../src/ledger/open-library.ts';
import { GuestError } from '../../src/sharing/guest.ts';
import { FormatError } from '../../shared/errors.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Act } from '../../shared/round.ts';
import type { Snapshot } from '../../src/ledger/snapshot.ts';
import { hrefOf } from '../frame/routes.ts';
import { download } from '../setup/download.ts';

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

/** Gives away what this window still holds. */
export function rescueAct(
  snapshot: () => Snapshot,
  held: () => readonly Pass[],
  acts: () => readonly Act[],
): NonNullable<Trouble['act']> {
  const run = async () => {
    const { rescueFile } = await import('../../src/ledger/rescue.ts');
    download('hundredths-rescued.zip', await rescueFile(snapshot(), held(), acts()), 'application/zip');
  };
  return { words: 'Save what is still here', run: () => void run() };
}

function ofStorage(error: StorageError): Trouble {
  const { message: words, trouble } = error;
  if (trouble === 'newer' || trouble === 'closed') return { words, act: reload, stays: true };
  if (trouble === 'gone') return { words, grave: true, stays: true };
  return { words, cause: error, ...(trouble === 'full' && { act: toCopies }) };
}

/** How much of the library a merge brought. */
export const thingsIn = ({ documents, acts }: MergeReport) =>
  documents.new + documents.newer + documents.apart + acts.new;

const piecesWords = (count: number) => (count === 1 ? 'One piece' : `${count} pieces`);

/** What could not be read of second copy and journal, and where it is; empty when everything could. */
export function unreadableWords(unreadable: readonly Unreadable[]): string {
  const pieces = unreadable.filter(({ of }) => of === undefined);
  const newer = pieces.filter(({ why }) => why === 'newer').length;
  const damaged = pieces.length - newer;
  const changes = unreadable.length - pieces.length;
  return [
    damaged > 0 &&
      `${piecesWords(damaged)} of the second copy could not be read, and what was in ${damaged === 1 ? 'it' : 'them'} may be missing: see Set aside in Setup.`,
    newer > 0 &&
      `${piecesWords(newer)} of the second copy ${newer === 1 ? 'was' : 'were'} written by a newer version of the bench and left alone: reload the page to get that version.`,
    changes > 0 &&
      `${changes === 1 ? 'One of the last changes' : `${changes} of the last changes`} could not be read in the journal, and may be missing: see Set aside in Setup.`,
  ]
    .filter(Boolean)
    .join(' ');
}

export function broughtBackNotice(all: readonly BroughtBack[]): Trouble {
  const things = all.reduce((sum, { report }) => sum + thingsIn(report), 0);
  const unreadable = unreadableWords(all.flatMap((one) => one.unreadable));
  const isWhole = things === 0 && all.every((one) => one.unreadable.every(({ of }) => of === 'journal'));
  if (isWhole) return { words: unreadable, grave: true, act: toCopies };
  const back = unreadable
    ? `What could be read of its second copy was brought back: ${things} things. ${unreadable}`
    : `All of it was brought back from its second copy: ${things} things.`;
  return {
    words: `The browser had lost the library, or a part of it. ${back} Save a backup file all the same: the second copy is in the same browser.`,
    ...(unreadable && { grave: true, act: toCopies }),
  };
}

/** Puts what was thrown into words. */
export function troubleOf(error: unknown): Trouble {
  if (error instanceof StorageError) return ofStorage(error);
  if (error instanceof ConflictError || error instanceof GuestError) return { words: error.message };
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
