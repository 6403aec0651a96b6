import type { Question } from '../../shared/round.ts';
import { listed } from '../words/figure-words.ts';
import { COVERAGE } from '../words/format.ts';
import type { RoundFormat } from './gauge-count.ts';
import { rangeText } from './oddness.ts';
import { readingText } from './reading-text.ts';
import type { ShortState } from './short-round.ts';

/** What a short round is about. */
export const QUESTION_WORDS: Readonly<Record<Question, string>> = {
  zones: 'The zones',
  blend: 'The blend',
  balance: 'The balance',
  plan: 'What a plan needs',
};

/** `±1.2` as readings are written. */
const doubtText = (doubtMm: number, writing: RoundFormat) =>
  `±${readingText(Number(doubtMm.toFixed(3)), writing)}`;

const unlikeWords = ({ unlike }: ShortState) =>
  unlike === undefined ? '' : `This reed is unlike your other ${unlike}: more places are asked for.`;

/** `Corners and rails stay about as open as a full map leaves them.` Empty where every zone was told as asked. */
function beyondWords({ beyond }: ShortState): string {
  if (beyond.length === 0) return '';
  const names = beyond.map((title, k) => (k === 0 ? title : title.toLowerCase()));
  return `${listed(names)} stay about as open as a full map leaves them.`;
}

/** `43 to 47 was expected. The zones: ±1.6 on average, ±1.9 before it.` Empty before the first reading. */
export function worthSentence(short: ShortState, writing: RoundFormat): string {
  const { last, doubtMm, question } = short;
  if (!last) return unlikeWords(short);
  const reachMm = COVERAGE * last.uMm;
  const range = rangeText(last.expectedMm - reachMm, last.expectedMm + reachMm, writing);
  const [now, before] = [doubtMm, last.beforeMm].map((mm) => doubtText(mm, writing));
  const worth = `${QUESTION_WORDS[question]}: ${now} on average, ${before} before it.`;
  return [`${range} was expected.`, worth, unlikeWords(short)].filter(Boolean).join(' ');
}

/** `Enough is known. The zones: ±0.9 on average, from these readings and 22 of your reeds.` */
export function enoughSentence(short: ShortState, writing: RoundFormat): string {
  const { question, doubtMm, reeds } = short;
  const from = reeds === undefined ? '' : `, from these readings and ${reeds} of your reeds`;
  const known = `${QUESTION_WORDS[question]}: ${doubtText(doubtMm, writing)} on average${from}.`;
  const begin = short.isEnough ? 'Enough is known.' : 'No place is left that would tell more.';
  return [begin, known, beyondWords(short)].filter(Boolean).join(' ');
}
