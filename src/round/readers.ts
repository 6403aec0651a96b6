import type { RoundState } from './fold-round.ts';

/** Who read what of a round, by the names used in a class or workshop, in order of the alphabet; readings without a name are no one's. */
export function readersIn({ stations }: Pick<RoundState, 'stations'>): ReadonlyMap<string, number> {
  const names = stations.flatMap(({ readings }) => readings.flatMap(({ by }) => by ?? [])).sort();
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}

/** `anna 12, bert 8`: how many readings that count each has read; empty where no name is known. */
export const readersWords = (state: Pick<RoundState, 'stations'>): string =>
  [...readersIn(state)].map(([name, count]) => `${name} ${count}`).join(', ');
