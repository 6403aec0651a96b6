import type { GaugeCount } from './gauge-count.ts';
import { readingText } from './reading-text.ts';

/** What the maker may have meant, and how it came to be typed as it was. */
export interface Slip {
  readonly thicknessMm: number;
  /** Completes "It may be 35 ...". */
  readonly how: string;
}

/** Keys that touch on a number pad. */
const BESIDE: Readonly<Record<string, string>> = {
  '0': '12',
  '1': '024',
  '2': '0135',
  '3': '26',
  '4': '157',
  '5': '2468',
  '6': '359',
  '7': '48',
  '8': '579',
  '9': '68',
};

const TENTH_MM = 0.1;
const FULL_TURN_MM = 1;

function replaceAt(text: string, i: number, key: string): string {
  return text.slice(0, i) + key + text.slice(i + 1);
}

/** Texts with two neighbouring digits turned. */
export function turned(text: string): string[] {
  return [...text.matchAll(/(?=\d\d)/g)].map(({ index }) =>
    replaceAt(replaceAt(text, index, text[index + 1]!), index + 1, text[index]!),
  );
}

function besides(text: string): string[] {
  return [...text].flatMap((digit, i) => [...(BESIDE[digit] ?? '')].map((key) => replaceAt(text, i, key)));
}

/** Likeliest first. */
function candidates(thicknessMm: number, count: GaugeCount): Slip[] {
  const text = readingText(thicknessMm, { count, decimal: 'point' });
  const scale = thicknessMm / Number(text);
  const retyped = (texts: readonly string[], how: string): Slip[] =>
    texts.map((other) => ({ thicknessMm: Number((Number(other) * scale).toFixed(6)), how }));
  const moved = (thicknesses: readonly number[], how: string): Slip[] =>
    thicknesses.map((mm) => ({ thicknessMm: Number(mm.toFixed(6)), how }));
  return [
    ...retyped(turned(text), 'with its digits turned'),
    ...moved([thicknessMm - TENTH_MM, thicknessMm + TENTH_MM], 'read a tenth of a millimetre off the dial'),
    ...moved([thicknessMm - FULL_TURN_MM], 'read a full turn of the dial too high'),
    ...moved([thicknessMm * 10, thicknessMm / 10], 'with its decimal sign in another place'),
    ...retyped(besides(text), 'with the key beside it struck'),
  ];
}

/**
 * The likeliest slip of the hand or the eye that makes an odd reading plausible: digits turned, a tenth or a full turn
 * misread, the decimal sign misplaced, a neighbouring key. Undefined when none does.
 *
 * @param isPlausible Tells whether a thickness (mm) is what the place could well hold.
 */
export function likeliestSlip(
  thicknessMm: number,
  count: GaugeCount,
  isPlausible: (thicknessMm: number) => boolean,
): Slip | undefined {
  return candidates(thicknessMm, count).find((slip) => slip.thicknessMm > 0 && isPlausible(slip.thicknessMm));
}
