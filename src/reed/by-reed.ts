import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';

/** What belongs to reeds, by the reed, each reed's own in the given order. */
export function byReed<T extends { readonly reedId: Id }>(
  items: readonly T[],
): ReadonlyMap<Id, readonly T[]> {
  const groups = new Map<Id, T[]>();
  for (const item of items) {
    const group = groups.get(item.reedId);
    if (group) group.push(item);
    else groups.set(item.reedId, [item]);
  }
  return groups;
}

const LABELS = new Intl.Collator('en', { numeric: true });

/** The order of labels as one counts: 2 before 10. */
export const byLabel = (a: Pick<Reed, 'label'>, b: Pick<Reed, 'label'>) => LABELS.compare(a.label, b.label);
