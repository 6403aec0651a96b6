import type { PassFacts } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Use } from '../../shared/room.ts';
import type { Trial } from '../../shared/trial.ts';
import type { Round } from '../../shared/round.ts';
import { byReed } from './by-reed.ts';

/** Hours of playing after which the last readings of a reed no longer tell how it is. Common practice, no source. */
const HOURS_TO_READ_AGAIN = 10;

/** Something that a reed waits for. */
export interface Waiting {
  readonly kind: 'round' | 'unread' | 'again';
  readonly reed: Reed;
  /** Stations of a round half done, or hours played since the last readings; 0 for a reed that was never read. */
  readonly amount: number;
}

interface Kept {
  readonly reeds: readonly Reed[];
  readonly passes: readonly PassFacts[];
  readonly rounds: readonly Round[];
  readonly uses: readonly Use[];
  readonly trials: readonly Trial[];
}

/** One time that a reed was played. */
export type Played = Pick<Use, 'reedId' | 'at' | 'minutes' | 'note'>;

/** Every time that reeds were played: trials count for the minutes that were noted. */
export function timesPlayed(uses: readonly Use[], trials: readonly Trial[]): Played[] {
  const tried = trials.flatMap(({ reedId, playedAt: at, minutes }) =>
    minutes ? [{ reedId, at, minutes }] : [],
  );
  return [...uses, ...tried];
}

/** Hours that a reed was played, all told or since a moment. */
export function hoursPlayed(played: readonly Played[], reedId: string, since = ''): number {
  const from = since === '' ? -Infinity : Date.parse(since);
  const minutes = played
    .filter((use) => use.reedId === reedId && Date.parse(use.at) > from)
    .reduce((sum, use) => sum + use.minutes, 0);
  return minutes / 60;
}

/** What the reeds in use wait for: rounds put down first, then reeds played long since they were read, then unread ones. */
export function waitingReeds({ reeds, passes, rounds, uses, trials }: Kept): Waiting[] {
  const [passesOf, usesOf] = [byReed(passes), byReed(timesPlayed(uses, trials))];
  const openOf = byReed(rounds.filter(({ closedAs }) => closedAs === undefined));
  const inUse = reeds.filter(({ state }) => state !== 'retired');
  const open = inUse.flatMap((reed): Waiting[] => {
    const [round] = openOf.get(reed.id) ?? [];
    return round ? [{ kind: 'round', reed, amount: round.stations.length }] : [];
  });
  const others = inUse.filter(({ id }) => !openOf.has(id));
  const again = others.flatMap((reed): Waiting[] => {
    const taken = (passesOf.get(reed.id) ?? []).map(({ takenAt }) => takenAt ?? '');
    const last = taken.sort((a, b) => Date.parse(a) - Date.parse(b)).at(-1);
    const hours = last ? hoursPlayed(usesOf.get(reed.id) ?? [], reed.id, last) : 0;
    return hours >= HOURS_TO_READ_AGAIN ? [{ kind: 'again', reed, amount: hours }] : [];
  });
  const unread = others
    .filter(({ id }) => !passesOf.has(id))
    .map((reed): Waiting => ({ kind: 'unread', reed, amount: 0 }));
  return [...open, ...again, ...unread];
}
