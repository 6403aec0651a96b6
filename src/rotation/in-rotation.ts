import type { Reed } from '../../shared/reed.ts';
import type { Use } from '../../shared/room.ts';
import type { Trial } from '../../shared/trial.ts';
import { responseOf } from '../reed/response-of.ts';
import { timesPlayed } from '../reed/waiting.ts';

const DAY_MS = 86_400_000;

/** What a maker keeps of playing. */
export interface Playing {
  readonly reeds: readonly Reed[];
  readonly uses: readonly Use[];
  readonly trials: readonly Trial[];
}

/** One reed that is alive, as it stands today. */
export interface InRotation {
  readonly reed: Reed;
  readonly hours: number;
  readonly lastPlayed?: string;
  readonly daysSince?: number;
  /** What it is best for: as the maker wrote, by its last verdict, or where it felt best; absent when nothing is known. */
  readonly bestFor?: { readonly words: string; readonly by: 'maker' | 'verdict' | 'feel' };
  /** The last word of each kind over all its trials. */
  readonly heard: Partial<Trial>;
}

const byId = <T extends { readonly reedId: string }>(
  items: readonly T[],
): ReadonlyMap<string, readonly T[]> => {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(item.reedId);
    if (group) group.push(item);
    else groups.set(item.reedId, [item]);
  }
  return groups;
};

/** What was last heard of each kind: later trials stand over earlier ones, and leave what they do not say. */
export function lastHeard(trials: readonly Trial[]): Partial<Trial> {
  const ordered = [...trials].sort((a, b) => Date.parse(a.playedAt) - Date.parse(b.playedAt));
  return ordered.reduce<Partial<Trial>>((heard, trial) => {
    const said = Object.entries({ ...trial, response: responseOf(trial) }).filter(
      ([, value]) => value !== undefined,
    );
    return { ...heard, ...Object.fromEntries(said) };
  }, {});
}

/** Felt at least this well, a service is one that the reed is good for. Common practice, no source. */
const FELT_WELL = 4;

function bestFor(reed: Reed, heard: Partial<Trial>, uses: readonly Use[]): InRotation['bestFor'] {
  if (reed.purpose) return { words: reed.purpose, by: 'maker' };
  const felt = uses
    .filter(({ felt: how = 0 }) => how >= FELT_WELL)
    .sort((a, b) => b.felt! - a.felt! || Date.parse(b.at) - Date.parse(a.at))[0];
  if (felt) return { words: felt.service, by: 'feel' };
  const { verdict } = heard;
  return verdict && verdict !== 'no' && verdict !== 'not yet' ? { words: verdict, by: 'verdict' } : undefined;
}

/** Reeds that are alive and past the blank, the longest rested first. */
export function inRotation({ reeds, uses, trials }: Playing, now: string): InRotation[] {
  const [used, played, tried] = [byId(uses), byId(timesPlayed(uses, trials)), byId(trials)];
  const alive = reeds.filter(({ state }) => state !== 'retired' && state !== 'blank');
  const rows = alive.map((reed): InRotation => {
    const own = played.get(reed.id) ?? [];
    const lastMs = own.reduce((last, { at }) => Math.max(last, Date.parse(at)), -Infinity);
    const lastPlayed = own.find(({ at }) => Date.parse(at) === lastMs)?.at;
    const heard = lastHeard(tried.get(reed.id) ?? []);
    const best = bestFor(reed, heard, used.get(reed.id) ?? []);
    return {
      reed,
      hours: own.reduce((sum, { minutes }) => sum + minutes, 0) / 60,
      ...(lastPlayed !== undefined && {
        lastPlayed,
        daysSince: Math.max(0, Math.floor((Date.parse(now) - lastMs) / DAY_MS)),
      }),
      ...(best && { bestFor: best }),
      heard,
    };
  });
  return rows.sort((a, b) => (b.daysSince ?? -1) - (a.daysSince ?? -1) || b.hours - a.hours);
}
