import type { Id } from '../../shared/ids.ts';
import type { PassFacts, PassHead } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import { hiddenIn } from '../words/hidden-characters.ts';

/** Names to be asked about: one that two things were given on devices that did not know of each other, or that is not what it looks like. */
export type NameQuestion = { readonly key: string } & (
  | { readonly of: 'label'; readonly reeds: readonly Reed[] }
  | { readonly of: 'hidden'; readonly reed: Reed }
  | { readonly of: 'number'; readonly reed: Reed; readonly passes: readonly PassHead[] }
);

function groups<T>(items: readonly T[], nameOf: (item: T) => string | number): T[][] {
  const byName = new Map<string | number, T[]>();
  for (const item of items) {
    const group = byName.get(nameOf(item));
    if (group) group.push(item);
    else byName.set(nameOf(item), [item]);
  }
  return [...byName.values()].filter(({ length }) => length > 1);
}

const keyOf = (all: readonly { readonly id: Id }[]) =>
  all
    .map(({ id }) => id)
    .sort()
    .join(' ');

/** The order in which things were made; the same on every device where that was at one moment. */
function byMade(a: Pick<Reed, 'id' | 'createdAt'>, b: Pick<Reed, 'id' | 'createdAt'>): number {
  return Date.parse(a.createdAt) - Date.parse(b.createdAt) || (a.id < b.id ? -1 : 1);
}

/** Labels with more than can be seen, whatever way they came in. */
export function hiddenLabels(reeds: readonly Reed[]): NameQuestion[] {
  return reeds
    .filter(({ label }) => hiddenIn(label).length > 0)
    .map((reed) => ({ of: 'hidden', key: `${reed.id} ${reed.label}`, reed }));
}

/** Reeds of one label. Invented ones may be called as they like. */
export function equalLabels(reeds: readonly Reed[]): Extract<NameQuestion, { of: 'label' }>[] {
  const own = reeds.filter(({ invented }) => !invented);
  return groups(own, ({ label }) => label.toLowerCase()).map((alike) => ({
    of: 'label',
    key: keyOf(alike),
    reeds: alike.sort(byMade),
  }));
}

/** Passes of one reed with one number. */
export function equalNumbers(reed: Reed, passes: readonly PassHead[]): NameQuestion[] {
  return groups(passes, ({ index }) => index).map((alike) => ({
    of: 'number',
    key: keyOf(alike),
    reed,
    passes: alike.sort(byMade),
  }));
}

/** The label with the first number behind it that no reed has. */
export function freeLabel(label: string, taken: ReadonlySet<string>): string {
  for (let number = 2; ; number++) if (!taken.has(`${label} (${number})`)) return `${label} (${number})`;
}

const momentOf = ({ takenAt, createdAt }: Pick<PassFacts, 'takenAt'> & { readonly createdAt: string }) =>
  Date.parse(takenAt ?? createdAt);

/**
 * A reed's passes numbered so that no two have one number: those of one number by the time at which they were read, and
 * later ones moved on as far as is needed.
 *
 * @returns Those whose number changes, with their new one.
 */
export function renumbered(passes: readonly PassHead[]): PassHead[] {
  const inOrder = [...passes].sort((a, b) => a.index - b.index || momentOf(a) - momentOf(b));
  let next = 0;
  return inOrder.flatMap((pass) => {
    const index = Math.max(pass.index, next);
    next = index + 1;
    return index === pass.index ? [] : [{ ...pass, index }];
  });
}
