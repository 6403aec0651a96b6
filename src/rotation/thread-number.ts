import type { Id } from '../../shared/ids.ts';
import type { Reed } from '../../shared/reed.ts';

/**
 * Signs that fit on the side of a staple's thread that one sees: it is about 6 mm across, and a sign written with a fine
 * pen takes about 1.2 mm. Common practice, no source.
 */
export const SIGNS_ON_THREAD = 5;

/** What to write on the thread, or why there is nothing short enough. */
export type ThreadNumber =
  | { readonly text: string }
  | { readonly none: 'too long' }
  | { readonly none: 'taken'; readonly by: string };

/** Without what a pen leaves out: hyphens, dots, spaces, and noughts before a number. */
export function shortened(label: string): string {
  return label.replace(/[^\p{L}\p{N}]+/gu, '').replace(/(^|\p{L})0+(?=\p{N})/gu, '$1');
}

const own = ({ label, ownNumber }: Reed) => {
  const short = shortened(label);
  return short.length <= SIGNS_ON_THREAD || ownNumber === undefined ? short : shortened(ownNumber);
};

/**
 * The number for each reed's thread, by the reed: its label, shortened, or the maker's own number where the label is too
 * long. Two reeds that are alive never get the same one.
 */
export function threadNumbers(reeds: readonly Reed[]): ReadonlyMap<Id, ThreadNumber> {
  const texts = new Map(reeds.map((reed) => [reed, own(reed)]));
  const holders = new Map<string, Reed[]>();
  for (const [reed, text] of texts) {
    if (reed.state !== 'retired') holders.set(text, [...(holders.get(text) ?? []), reed]);
  }
  const numberOf = (reed: Reed, text: string): ThreadNumber => {
    if (text.length > SIGNS_ON_THREAD || text === '') return { none: 'too long' };
    const other = reed.state !== 'retired' && holders.get(text)?.find(({ id }) => id !== reed.id);
    return other ? { none: 'taken', by: other.label } : { text };
  };
  return new Map([...texts].map(([reed, text]) => [reed.id, numberOf(reed, text)]));
}
