import type { Journal } from '../../../src/ledger/journal/journal.ts';

/** A journal that outlives the ledgers that write it, in the lines given. */
export function memoryJournal(lines: string[] = []): Journal {
  return {
    left: () => Promise.resolve([...lines]),
    append: (line) => Promise.resolve(void lines.push(line)),
    count: () => lines.length,
    forget: (count) => Promise.resolve(void lines.splice(0, count)),
    trouble: () => undefined,
    close: () => undefined,
  };
}
