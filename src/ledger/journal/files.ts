import { appendEntry, readEntries, type OpenFile } from './entries.ts';

/** Windows that can write at the same time, each into a file of its own; one more has no journal. */
const MOST_WINDOWS = 8;

/** What a journal's files are asked to do. */
export type JournalRequest =
  /** What windows that are gone have left. */
  | { readonly wish: 'read' }
  | { readonly wish: 'append'; readonly line: string }
  /** Everything is kept elsewhere too, if no more than `count` entries have been appended by now. */
  | { readonly wish: 'forget'; readonly count: number };

export interface JournalFiles {
  /** @returns Lines for `read`, none for the others. @throws Error when a line could not be written. */
  readonly grant: (wish: JournalRequest) => readonly string[];
}

/**
 * Takes the files that no other window holds: the first is written to, all are read.
 *
 * @param open Opens the file of a number; nothing when another window has it.
 * @returns Nothing when other windows have all files.
 */
export async function takeFiles(
  open: (number: number) => Promise<OpenFile | undefined>,
): Promise<JournalFiles | undefined> {
  const files: OpenFile[] = [];
  for (let number = 0; number < MOST_WINDOWS; number++) {
    const file = await open(number);
    if (!file) continue;
    if (files.length === 0 || file.getSize() > 0) files.push(file);
    else file.close();
  }
  const [own, ...left] = files;
  if (!own) return undefined;
  const lines = files.flatMap(readEntries);
  let appended = 0;

  function forget() {
    for (const file of files) file.truncate(0);
    for (const file of left.splice(0)) file.close();
    files.splice(1);
  }

  return {
    grant(wish) {
      if (wish.wish === 'read') return lines;
      if (wish.wish === 'append') {
        appended++;
        appendEntry(own, wish.line);
      } else if (wish.count >= appended) forget();
      return [];
    },
  };
}
