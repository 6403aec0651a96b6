import { dayNumber } from '../../shared/moment.ts';
import type { Engagement } from '../../shared/room.ts';
import { listed, sentence } from '../words/figure-words.ts';
import { numberText, withUnit, type NumberFormat } from '../words/format.ts';
import type { Lasting } from './lifetimes.ts';
import { EVENING_HOURS, type Advice, type Suggestion } from './suggest.ts';

/** An engagement with the reed that is proposed for it. */
export interface Proposal {
  readonly engagement: Engagement;
  readonly advice: Advice;
  readonly day: number;
  /** What the maker took, or what is best founded; absent where no reed can be played. */
  readonly first?: Suggestion;
  /** Taken by the maker, or with nothing against it. */
  readonly isSure: boolean;
  readonly second?: Suggestion;
  /** Hours of the first after the engagement, earlier ones counted with the usual evening. */
  readonly hoursAfter?: number;
  readonly words: string;
}

/** Days between the last playing of a reed and an engagement, other engagements counted. */
function restBefore({ row }: Suggestion, days: number, playedFor: number | undefined): string {
  if (playedFor !== undefined)
    return `rested ${withUnit(String(days - playedFor), days - playedFor === 1 ? 'day' : 'days')}`;
  return row.daysSince === undefined ? '' : `rested ${withUnit(String(row.daysSince + days), 'days')}`;
}

/** Reasons in words, never a score. */
function reasonWords(
  { row, speaksFor, speaksAgainst }: Suggestion,
  hoursAfter: number,
  rest: string,
  { lifetimes }: Lasting,
  writing: Pick<NumberFormat, 'decimal'>,
): string {
  const ended = lifetimes.filter(({ cause }) => cause !== undefined);
  const longest = Math.max(...ended.map(({ duration }) => duration));
  const after = `about ${withUnit(numberText(hoursAfter, 0, writing), 'h')} after it`;
  const beyond =
    ended.length > 0 && hoursAfter > longest
      ? [`none of yours that ended went further than ${withUnit(numberText(longest, 0, writing), 'h')}`]
      : [];
  const against = [...speaksAgainst, ...beyond];
  const good = sentence(
    [...speaksFor.filter((words) => !words.startsWith('played in,')), rest, after].filter(Boolean).join('; '),
  );
  return `${good}.${against.length > 0 ? ` But: ${listed(against)}.` : ''}${row.hours === 0 ? ' Not played yet.' : ''}`;
}

/**
 * A reed for each engagement, the earliest first, each counting what those before it add to a reed's hours.
 *
 * @param advised Engagements from today on, in any order.
 */
export function proposals(
  advised: readonly { readonly engagement: Engagement; readonly advice: Advice }[],
  lived: Lasting,
  writing: Pick<NumberFormat, 'decimal'>,
): Proposal[] {
  const ordered = [...advised].sort((a, b) => Date.parse(a.engagement.at) - Date.parse(b.engagement.at));
  const evenings = new Map<string, number[]>();
  return ordered.map(({ engagement, advice }): Proposal => {
    const own = advice.play.find(({ row }) => row.reed.id === engagement.reedId);
    const first = own ?? advice.play[0];
    const base = { engagement, advice, day: dayNumber(engagement.at), isSure: false };
    if (!first) return { ...base, words: 'No reed can be played yet.' };
    const earlier = evenings.get(first.row.reed.id) ?? [];
    evenings.set(first.row.reed.id, [...earlier, advice.days]);
    const hoursAfter = first.row.hours + EVENING_HOURS * (earlier.length + 1);
    const second = advice.play.find((one) => one !== first);
    const words = reasonWords(
      first,
      hoursAfter,
      restBefore(first, advice.days, earlier.at(-1)),
      lived,
      writing,
    );
    return {
      ...base,
      first,
      isSure: own !== undefined || (first.speaksFor.length > 0 && first.speaksAgainst.length === 0),
      ...(second && { second }),
      hoursAfter,
      words,
    };
  });
}
