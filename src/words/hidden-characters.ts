/**
 * Characters that cannot be seen: controls, marks without width or that turn the direction of writing, separators of
 * lines, halves of a pair of code units, and those that stand for nothing. Spaces of any width are seen, and so are breaks of lines.
 *
 * Source: Unicode, general categories Cc, Cf, Cs, Cn, Zl, Zp.
 */
const HIDDEN = /(?![\t\n\r])[\p{Cc}\p{Cf}\p{Cs}\p{Cn}\p{Zl}\p{Zp}]/gu;

/** Joins letters or parts of one picture: without it a word or a picture is another. */
const JOINERS = /(?<=[\p{L}\p{M}\p{Emoji}\ufe0f])[\u200c\u200d](?=[\p{L}\p{Emoji}])/gu;

const NAMES: readonly (readonly [from: number, to: number, name: string])[] = [
  [0, 0x1f, 'a control character'],
  [0x7f, 0x9f, 'a control character'],
  [0xad, 0xad, 'a soft hyphen'],
  [0x200b, 0x200d, 'a space without width'],
  [0x200e, 0x200f, 'a mark that turns the direction of writing'],
  [0x202a, 0x202e, 'a mark that turns the direction of writing'],
  [0x2060, 0x2064, 'a space without width'],
  [0x2066, 0x2069, 'a mark that turns the direction of writing'],
  [0xd800, 0xdfff, 'half a character'],
  [0xfeff, 0xfeff, 'a space without width'],
];

const nameOf = (character: string) => {
  const code = character.codePointAt(0) ?? 0;
  return NAMES.find(([from, to]) => from <= code && code <= to)?.[2] ?? 'a character that stands for nothing';
};

const found = (text: string): readonly string[] => {
  const joiners = new Set([...text.matchAll(JOINERS)].map(({ index }) => index));
  return [...text.matchAll(HIDDEN)].flatMap((match) => (joiners.has(match.index) ? [] : match[0]));
};

/** What cannot be seen in a text, each once, in words: `a mark that turns the direction of writing`. */
export const hiddenIn = (text: string): readonly string[] => [...new Set(found(text).map(nameOf))];

/** A text without what cannot be seen in it. */
export function withoutHidden(text: string): string {
  const joiners = new Set([...text.matchAll(JOINERS)].map(({ index }) => index));
  return text.replace(HIDDEN, (character, index: number) => (joiners.has(index) ? character : '')).trim();
}
