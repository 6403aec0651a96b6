import { FormatError } from '../../../shared/errors.ts';
import type { Library } from '../../../shared/library.ts';
import { readLibraryText } from '../library-file.ts';
import type { Ledger } from '../ledger-face.ts';
import type { MergeReport } from '../merge.ts';
import { brings } from '../mirror/second-copy.ts';
import type { Changed } from '../whole-library.ts';

/** Entries that can be read. One that was cut off was never called kept. */
export async function readEntries(lines: readonly string[]): Promise<readonly Library[]> {
  const entries: Library[] = [];
  for (const line of lines) {
    try {
      entries.push(await readLibraryText(line));
    } catch (error) {
      if (!(error instanceof FormatError)) throw error;
    }
  }
  return entries;
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
