import { FormatError } from '../../../shared/errors.ts';
import { readLibraryText } from '../library-file.ts';
import type { Ledger } from '../ledger.ts';
import type { Holdings, MergeReport } from '../merge.ts';
import { brings } from '../second-copy.ts';

/** An entry that was cut off was never called kept. */
async function readEntry(line: string): Promise<Holdings[]> {
  try {
    return [await readLibraryText(line)];
  } catch (error) {
    if (error instanceof FormatError) return [];
    throw error;
  }
}

/**
 * Takes in what windows now gone have left in the journal, if the library has lost any of it.
 *
 * @param lines The journal's entries; any of them may be cut off.
 */
export async function takeInLeft(
  ledger: Pick<Ledger, 'compare' | 'merge'>,
  lines: readonly string[],
): Promise<MergeReport[]> {
  const entries: Holdings[] = [];
  for (const line of lines) entries.push(...(await readEntry(line)));
  if (entries.length === 0) return [];
  const acts = new Map(entries.flatMap((entry) => entry.acts.map((act) => [act.id, act])));
  const left = {
    documents: entries.flatMap(({ documents }) => documents),
    acts: [...acts.values()],
    notChosen: entries.flatMap(({ notChosen = [] }) => notChosen),
  };
  if (!brings(await ledger.compare(left))) return [];
  return [await ledger.merge(left)];
}
