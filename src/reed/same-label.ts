import type { Reed } from '../../shared/reed.ts';

/**
 * Reeds that bear a label which an earlier one bears: two devices gave it while neither heard of the other. They may be
 * two reeds or one, which only the maker knows.
 */
export function reedsOfSameLabel(reeds: readonly Reed[]): Reed[] {
  const first = new Map<string, Reed>();
  return [...reeds]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .filter((reed) => {
      const before = first.get(reed.label);
      if (!before) first.set(reed.label, reed);
      return before !== undefined;
    });
}
