import type { Reed } from '../../shared/reed.ts';
import {
  endingsByCause,
  medianInterval,
  medianLifetime,
  survivalCurve,
  type IncidenceStep,
  type Lifetime,
  type SurvivalStep,
} from '../learning/survival.ts';
import { hoursPlayed, type Played } from '../reed/waiting.ts';

type Cause = NonNullable<Reed['retirement']>['cause'];

/** Endings that the playing itself brings. Every other one takes a reed out of sight before its own end. */
const ENDINGS: readonly Cause[] = ['worn out', 'chipped', 'cracked', 'mould'];
/** Fewer endings than this say nothing of how long reeds last. Common practice, no source. */
export const FEWEST_ENDINGS = 5;

/** A reed that was played, with its hours, and what ended it; no cause for one whose own end was not seen. */
export interface ReedLifetime extends Lifetime {
  readonly reed: Reed;
}

/** How long a maker's reeds last, in hours played. */
export interface Lasting {
  readonly lifetimes: readonly ReedLifetime[];
  readonly curve: readonly SurvivalStep[];
  readonly byCause: ReadonlyMap<string, readonly IncidenceStep[]>;
  readonly medianHours?: number;
  /** 95 %; an end that the reeds so far do not settle is undefined. */
  readonly medianInterval: readonly [low: number | undefined, high: number | undefined];
  /** Reeds that ended for a cause of their own. */
  readonly ended: number;
  /** Reeds alive, given away, lost, kept as an example: known to have lasted at least so long. */
  readonly censored: number;
  /** Reeds left out: they never came to be played. */
  readonly neverPlayed: number;
}

/** Each reed that was played, with how long, and what ended it. */
export function lifetimesOf(reeds: readonly Reed[], played: readonly Played[]): ReedLifetime[] {
  return reeds.flatMap((reed): ReedLifetime[] => {
    const duration = hoursPlayed(played, reed.id);
    if (duration === 0) return [];
    const cause = reed.state === 'retired' ? reed.retirement?.cause : undefined;
    return [cause !== undefined && ENDINGS.includes(cause) ? { reed, duration, cause } : { reed, duration }];
  });
}

/** How long reeds last: Kaplan-Meier over the hours played, and the shares of the causes that compete. */
export function lasting(reeds: readonly Reed[], played: readonly Played[]): Lasting {
  const lifetimes = lifetimesOf(reeds, played);
  const curve = survivalCurve(lifetimes);
  const ended = lifetimes.filter(({ cause }) => cause !== undefined).length;
  const medianHours = medianLifetime(curve);
  return {
    lifetimes,
    curve,
    byCause: endingsByCause(lifetimes),
    ...(medianHours !== undefined && { medianHours }),
    medianInterval: medianInterval(curve),
    ended,
    censored: lifetimes.length - ended,
    neverPlayed: reeds.length - lifetimes.length,
  };
}
