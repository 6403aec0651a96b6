import { dayWords } from '../../src/words/day-words.ts';

/** `25 Nov 2026, 14:02`, as the clock stood where it was written, the day in the reader's own language. */
export const momentWords = (at: string): string => `${dayWords(at)}, ${at.slice(11, 16)}`;
