import type { Lot } from '../../shared/cane.ts';
import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Use } from '../../shared/room.ts';
import type { Trial } from '../../shared/trial.ts';
import { byLabel, byReed } from '../reed/by-reed.ts';
import { lotOf } from '../cane/lot-of.ts';
import { timesPlayed, type Played } from '../reed/waiting.ts';
import { lastHeard } from './in-rotation.ts';

/** What is looked through. */
export interface Searched {
  readonly reeds: readonly Reed[];
  readonly lots: readonly Lot[];
  readonly passes: readonly PassFacts[];
  readonly trials: readonly Trial[];
  readonly uses: readonly Use[];
}

/** A reed in the list of all, with what it may be found and sorted by. */
export interface FoundReed {
  readonly reed: Reed;
  readonly lot?: string;
  readonly passes: number;
  readonly hours: number;
  readonly lastPlayed?: string;
  readonly verdict?: NonNullable<Trial['verdict']>;
  /** The newest thing written of it. */
  readonly touched: string;
  /** All its words in small letters. */
  readonly words: string;
}

export type Sorting = 'label' | 'newest' | 'hours' | 'last played' | 'verdict';
export const SORTINGS: readonly Sorting[] = ['label', 'newest', 'hours', 'last played', 'verdict'];

export interface Query {
  /** Every word must be found, whatever its case. */
  readonly text: string;
  readonly state?: Reed['state'] | 'alive';
  readonly styleId?: string;
  readonly tag?: string;
  readonly favourites?: boolean;
  readonly sort: Sorting;
}

const later = (a: string, b: string | undefined) =>
  b !== undefined && Date.parse(b) > Date.parse(a) ? b : a;

/** Everything that reeds may be found by, gathered once for a library. */
export function gatherReeds({ reeds, lots, passes, trials, uses }: Searched): FoundReed[] {
  const [passesOf, trialsOf, usesOf] = [byReed(passes), byReed(trials), byReed(timesPlayed(uses, trials))];
  return reeds.map((reed): FoundReed => {
    const [own, tried, played] = [passesOf, trialsOf, usesOf].map((map) => map.get(reed.id) ?? []) as [
      readonly PassFacts[],
      readonly Trial[],
      readonly Played[],
    ];
    const lot = lotOf(reed, lots)?.code;
    const lastPlayed = played.reduce<string | undefined>(
      (last, { at }) => (last ? later(last, at) : at),
      undefined,
    );
    const { verdict } = lastHeard(tried);
    const notes = [
      ...own.map(({ note }) => note),
      ...tried.map(({ words }) => words),
      ...played.map(({ note }) => note),
    ];
    const said = [reed.label, reed.ownNumber, reed.purpose, reed.note, reed.state, lot && `lot ${lot}`];
    const ended = [reed.retirement?.cause, reed.retirement?.lesson, verdict, reed.favourite && 'favourite'];
    return {
      reed,
      ...(lot !== undefined && { lot }),
      passes: own.length,
      hours: played.reduce((sum, { minutes }) => sum + minutes, 0) / 60,
      ...(lastPlayed !== undefined && { lastPlayed }),
      ...(verdict && { verdict }),
      touched: [
        ...own.map(({ takenAt }) => takenAt),
        ...tried.map(({ playedAt }) => playedAt),
        lastPlayed,
      ].reduce<string>(later, reed.createdAt),
      words: [...said, ...ended, ...reed.tags, ...notes].filter(Boolean).join(' ').toLowerCase(),
    };
  });
}

const VERDICTS = ['concert', 'rehearsal', 'practice', 'not yet', 'no'];
const rank = (verdict: string | undefined) => (verdict ? VERDICTS.indexOf(verdict) : VERDICTS.length);
const inOrder = (a: FoundReed, b: FoundReed) => byLabel(a.reed, b.reed);
const newestFirst = (a: string | undefined, b: string | undefined) =>
  (b ? Date.parse(b) : -Infinity) - (a ? Date.parse(a) : -Infinity) || 0;

const ORDERS: Readonly<Record<Sorting, (a: FoundReed, b: FoundReed) => number>> = {
  label: inOrder,
  newest: (a, b) => newestFirst(a.touched, b.touched) || inOrder(a, b),
  hours: (a, b) => b.hours - a.hours || inOrder(a, b),
  'last played': (a, b) =>
    Number(b.lastPlayed !== undefined) - Number(a.lastPlayed !== undefined) ||
    newestFirst(a.lastPlayed, b.lastPlayed) ||
    inOrder(a, b),
  verdict: (a, b) => rank(a.verdict) - rank(b.verdict) || inOrder(a, b),
};

/** The reeds that answer a query, in its order. */
export function findReeds(gathered: readonly FoundReed[], query: Query): FoundReed[] {
  const words = query.text.toLowerCase().split(/\s+/).filter(Boolean);
  return gathered
    .filter(({ reed, words: own }) => {
      if (query.state === 'alive' ? reed.state === 'retired' : query.state && reed.state !== query.state)
        return false;
      if (query.styleId && reed.styleId !== query.styleId) return false;
      if (query.tag && !reed.tags.includes(query.tag)) return false;
      if (query.favourites && !reed.favourite) return false;
      return words.every((word) => own.includes(word));
    })
    .sort(ORDERS[query.sort]);
}

/** Tags in use, the most used first. */
export function tagsOf(reeds: readonly Reed[]): string[] {
  const counts = new Map<string, number>();
  for (const { tags } of reeds) for (const tag of tags) counts.set(tag, (counts.get(tag) ?? 0) + 1);
  return [...counts].sort(([a, m], [b, n]) => n - m || a.localeCompare(b)).map(([tag]) => tag);
}
