import type { Reed } from '../../shared/reed.ts';
import { hoursPlayed, timesPlayed } from '../../src/reed/waiting.ts';
import { quantityText, type NumberFormat } from '../../src/words/format.ts';
import type { LibraryStore } from '../store/library-store.ts';

/** What stands under a reed in the case: what it is for, how long it was played or how far it is read. */
export function slotFacts(store: LibraryStore, reed: Reed, writing: NumberFormat): string[] {
  const passes = store.passesOf(reed.id);
  const { use, trial } = store.snapshot.live;
  const hours = hoursPlayed(timesPlayed(use, trial), reed.id);
  const read = passes.length === 0 ? 'not read' : `pass ${passes.at(-1)!.index}`;
  const life = hours > 0 ? quantityText('hours', hours, writing) : read;
  return [
    reed.favourite ? 'favourite' : (reed.purpose ?? reed.state),
    reed.favourite && reed.purpose ? `${life}, ${reed.purpose}` : life,
    ...(reed.invented ? ['invented'] : []),
  ];
}
