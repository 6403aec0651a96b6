import { COVERAGE, distanceText, stationText, type NumberFormat } from './format.ts';
import type { Estimate } from '../../shared/estimate.ts';

/** Whether a figure differs from zero by more than its 95 % doubt. */
export function isMeasurable({ valueMm, uMm }: Estimate): boolean {
  return Math.abs(valueMm) > COVERAGE * uMm;
}

const NO_BREAK = '\u00a0';

/** How far apart two places on a blade are, as a maker says it: `half a millimetre`, `0.3 mm`. */
export function apartWords(mm: number, writing: NumberFormat): string {
  const size = Math.abs(mm);
  if (Math.abs(size - 0.5) < 0.075) return 'half a millimetre';
  if (Math.abs(size - 1) < 0.1) return 'a millimetre';
  return distanceText(size, writing);
}

/** A distance from the tip as it was read: `10 mm`, `0.5 mm`; rounded where it was computed. */
export function placeWords(mm: number, writing: NumberFormat): string {
  return stationText(Math.round(mm * 10) / 10, writing);
}

/** Where across a blade: middle, left, right edge. */
export function acrossWords(across: number): string {
  if (Math.abs(across) < 0.1) return 'middle';
  const side = across < 0 ? 'left' : 'right';
  return Math.abs(across) >= 0.65 ? `${side}${NO_BREAK}edge` : side;
}

const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** A count in a sentence: a word up to ten. */
export function countWord(count: number): string {
  return SMALL[count] ?? String(count);
}

/** Items in a sentence: `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** `by anna and bert`: who has read a pass; empty where no name is known. */
export const readByWords = (names: readonly string[] = []): string =>
  names.length > 0 ? `by ${listed(names)}` : '';

/** A sentence with its first letter large. */
export function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
