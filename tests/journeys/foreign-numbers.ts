import type { PageWord } from './page-words.ts';

/** Points between digits that are no decimal sign: versions, standards, addresses, names of files. */
const NO_NUMBERS = [
  /\b(?:ISO|OIML|WMO|IAPWS|DOI|doi|10\.\d{4})\S*(?: \S*\d\S*)*/g,
  /\b\d+\.\d+\.\d+\b/g,
  /\S+\.(?:csv|json|zip|svg|png|html)\b/g,
];

/** Words that say a number otherwise than with a decimal comma, or a thickness otherwise than in thousandths of an inch. */
export function foreignNumbers(words: readonly PageWord[]): string[] {
  return words.flatMap(({ from, words: text }) => {
    const plain = NO_NUMBERS.reduce((rest, pattern) => rest.replace(pattern, ''), text);
    const isForeign =
      /\d\.\d|(?<![-\w/])\.\d/.test(plain) || /\bhundredths?\b(?! of a millimetre)/.test(plain);
    return isForeign ? [`${from}: ${text}`] : [];
  });
}
