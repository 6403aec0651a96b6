import { FormatError } from '../../../shared/errors.ts';
import type { Library } from '../../../shared/library.ts';
import { NewerFormatError } from '../errors.ts';
import { readLibraryText } from '../library-file.ts';
import type { Ledger } from '../ledger-face.ts';
import type { MergeReport } from '../merge.ts';
import { brings } from '../mirror/second-copy.ts';
import type { Unreadable } from '../mirror/pieces.ts';
import { sha256 } from '../sha256.ts';
import type { Changed } from '../whole-library.ts';
import { unsealed } from './seal.ts';

/** What earlier windows have left in the journal. */
export interface LeftEntries {
  readonly entries: readonly Library[];
  /** Lines that tell of a change and cannot be read, as files. */
  readonly unreadable: readonly { readonly what: Unreadable; readonly bytes: Uint8Array }[];
}

async function asFile(line: string, why: Unreadable['why']): Promise<LeftEntries['unreadable'][number]> {
  const bytes = new TextEncoder().encode(line);
  const name = `journal-${(await sha256(bytes)).slice(0, 12)}.txt`;
  return { what: { of: 'journal', name, bytes: bytes.length, why }, bytes };
}

/** Reads the lines of a journal. What was cut off was never called kept, and is left out. */
export async function readEntries(lines: readonly string[]): Promise<LeftEntries> {
  const entries: Library[] = [];
  const unreadable: LeftEntries['unreadable'][number][] = [];
  for (const line of lines) {
    const found = await unsealed(line);
    if (found === 'cut off') continue;
    try {
      if (found === 'damaged') throw new FormatError([{ where: 'line', what: 'is not as it was written' }]);
      entries.push(await readLibraryText(found.text));
    } catch (error) {
      if (!(error instanceof FormatError)) throw error;
      // An older program's line does not tell whether it was cut off.
      if (line.startsWith('{') && !(error instanceof NewerFormatError)) continue;
      unreadable.push(await asFile(line, error instanceof NewerFormatError ? 'newer' : 'damaged'));
    }
  }
  return { entries, unreadable };
}

/** What entries tell of. */
export function changedIn(entries: readonly Library[]): Changed {
  const documents = entries.flatMap((one) => [...one.documents, ...(one.gone ?? [])].map(({ id }) => id));
  const sides = entries.flatMap(({ notChosen = [] }) => notChosen.map(({ side }) => side.id));
  const rounds = entries.flatMap(({ acts }) => acts.map(({ roundId }) => roundId));
  return { ids: [...new Set([...documents, ...sides])], rounds: [...new Set(rounds)] };
}

/** Takes in what windows now gone have left in the journal, if the library has lost any of it. */
export async function takeInLeft(
  ledger: Pick<Ledger, 'compare' | 'merge'>,
  entries: readonly Library[],
): Promise<MergeReport[]> {
  if (entries.length === 0) return [];
  const acts = new Map(entries.flatMap((entry) => entry.acts.map((act) => [act.id, act])));
  const left = {
    documents: entries.flatMap(({ documents }) => documents),
    acts: [...acts.values()],
    notChosen: entries.flatMap(({ notChosen = [] }) => notChosen),
    gone: entries.flatMap(({ gone = [] }) => gone),
  };
  const would = await ledger.compare(left, { isOwn: true });
  if (!brings(would) && left.gone.length === 0) return [];
  const report = await ledger.merge(left, { isOwn: true });
  return brings(report) ? [report] : [];
}
