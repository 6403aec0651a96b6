import type { Reed } from '../../shared/reed.ts';
import { countWord, sentence } from '../words/figure-words.ts';

/**
 * What lies in a case when its lid is open, slot after slot: each reed that is alive in its own slot, gaps where none
 * lies, behind them those without a slot in the order of their labels. Of two with one slot the first by label has it.
 *
 * @param leastSlots Slots that a case has, empty or not.
 * @param mostWithout Reeds without a slot are left out once more than this lie in the case.
 */
export function caseSlots(
  reeds: readonly Reed[],
  leastSlots: number,
  mostWithout: number,
): readonly (Reed | undefined)[] {
  const alive = reeds
    .filter(({ state }) => state !== 'retired')
    .sort((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true }));
  const own = new Map<number, Reed>();
  for (const reed of alive) if (reed.slot !== undefined && !own.has(reed.slot)) own.set(reed.slot, reed);
  const held = new Set(own.values());
  const others = alive.filter((reed) => !held.has(reed));
  const slotted = Array.from({ length: Math.max(0, ...own.keys()) }, (_, i) => own.get(i + 1));
  const room = Math.max(0, mostWithout - held.size);
  const lying = [...slotted, ...others.filter(({ slot }, i) => slot !== undefined || i < room)];
  const empty = Math.max(0, leastSlots - lying.length);
  return [...lying, ...Array.from({ length: empty }, () => undefined)];
}

/** How many reeds are alive, and how many of them have their place in the case. */
export function sayCase(alive: number, inCase: number): string {
  const reeds = `${sentence(countWord(alive))} ${alive === 1 ? 'reed' : 'reeds'}`;
  return inCase === alive
    ? `${reeds} in the case.`
    : `${reeds} alive, ${countWord(inCase)} of them in the case.`;
}
