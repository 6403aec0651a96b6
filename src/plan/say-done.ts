import { listed, sentence } from '../words/figure-words.ts';
import type { Done } from './meant-and-done.ts';

const LEADS: readonly (readonly [Done['verdict'], string])[] = [
  ['as meant', 'as meant at'],
  ['more', 'more than meant at'],
  ['less', 'less than meant at'],
  ['not measurable', 'too little to tell at'],
];

function placeWords({ title, blade, side }: Done): string {
  const where = side === 'both' ? '' : `${side} `;
  return `${blade}’s ${where}${title.toLowerCase()}`;
}

/** Where the knife did what was meant and where not, in a sentence. */
export function sayDone(rows: readonly Done[]): string {
  const parts = LEADS.flatMap(([verdict, lead]) => {
    const places = rows.filter((row) => row.verdict === verdict);
    return places.length > 0 ? [`${lead} ${listed(places.map(placeWords))}`] : [];
  });
  return parts.length === 0 ? 'Nothing was meant.' : `${sentence(parts.join('; '))}.`;
}
