import type { Journal } from '../../../src/ledger/journal/journal.ts';

/** A journal that outlives the ledgers that write it. */
export function memoryJournal(): Journal {
  let lines: string[] = [];
  return {
    left: () => Promise.resolve([...lines]),
    append: (line) => Promise.resolve(void lines.push(line)),
    count: () => lines.length,
    forget: (count) => Promise.resolve(void (lines = lines.slice(count))),
    trouble: () => undefined,
    close: () => undefined,
  };
}
