import type { Blade } from '../../shared/blade.ts';
import { isInZone, type PlacedZone } from '../blade/zones.ts';
import { acrossWords } from '../words/figure-words.ts';

/** An answer in words: what is sure, and what the maker should not miss. */
export interface Answer {
  readonly say: string;
  readonly mind?: string;
  readonly aside?: string;
}

/** A place this near to a zone along the blade, mm, is still told by its name. */
const BESIDE_MM = [0, 0.3, -0.3, 0.6, -0.6];

/** A place in the trade's words: `B's right window`, `A's spine`. */
export function placeOnBlade(zones: readonly PlacedZone[], blade: Blade, y: number, u: number): string {
  const [zone] = BESIDE_MM.flatMap((mm) => zones.filter((zone) => isInZone(zone, y + mm, u)));
  const title = zone?.title.toLowerCase();
  if (!zone || !title) return `${blade}, ${acrossWords(u)},`;
  if (zone.outlines.length === 2) return `${blade}’s ${u < 0 ? 'left' : 'right'} ${title.replace(/s$/, '')}`;
  return Math.abs(u) < 0.1 ? `${blade}’s ${title}` : `${blade}’s ${title}, ${acrossWords(u)},`;
}
