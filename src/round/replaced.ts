import type { Id } from '../../shared/ids.ts';
import type { Replaced } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Act } from '../../shared/round.ts';
import { inSequence, standingIds } from './in-force.ts';
import { placeKey } from './place-words.ts';

/** A pass remembers so many replaced values; the oldest are forgotten first. */
const MOST_KEPT = 1000;
const MOST_AT_ONCE = 50;

const keyOf = (reading: Reading) => `${reading.role} ${placeKey(reading)}`;
const stateOf = ({ thicknessMm, flag }: Reading) => `${thicknessMm} ${flag}`;

function byPlace(readings: readonly Reading[]): ReadonlyMap<string, readonly Reading[]> {
  const places = new Map<string, Reading[]>();
  for (const reading of readings) {
    const known = places.get(keyOf(reading));
    if (known) known.push(reading);
    else places.set(keyOf(reading), [reading]);
  }
  return places;
}

/** Whether everything that was read at a place still stands there, more beside it or not. */
const stillStands = (was: readonly Reading[], now: readonly Reading[]) =>
  was.every((reading) => now.some((other) => stateOf(other) === stateOf(reading)));

/** What was read at places where something else stands from now on, each place with what it held. */
export function replacedBy(
  before: readonly Reading[],
  after: readonly Reading[],
  about: Omit<Replaced, 'was'>,
): Replaced[] {
  const now = byPlace(after);
  return [...byPlace(before)]
    .filter(([key, was]) => !stillStands(was, now.get(key) ?? []))
    .map(([, was]) => ({ ...about, was: was.slice(0, MOST_AT_ONCE) }));
}

/** A history with what came to it, as a pass keeps it; nothing for an empty one. */
export function withHistory(
  before: readonly Replaced[] | undefined,
  more: readonly Replaced[],
): { replaced?: Replaced[] } {
  const all = [...(before ?? []), ...more].slice(-MOST_KEPT);
  return all.length === 0 ? {} : { replaced: all };
}

/** When each reading of a round was replaced or taken back, by its id. */
function endsOf(acts: readonly Act[]): ReadonlyMap<Id, string> {
  const ends = new Map<Id, string>();
  for (const act of acts) {
    if (act.act === 'withdrawn') ends.set(act.of, act.at);
    if (act.act === 'taken' && act.replaces !== undefined) ends.set(act.replaces, act.at);
  }
  return ends;
}

/** Readings of a round that do not count in the end, in the order in which they were given up. */
export function replacedInRound(log: readonly Act[]): Replaced[] {
  const acts = inSequence(log);
  const standing = standingIds(acts);
  const replaced = new Set(
    acts.flatMap((act) => (act.act === 'taken' && standing.has(act.id) ? (act.replaces ?? []) : [])),
  );
  const ends = endsOf(acts);
  return acts
    .flatMap((act): Replaced[] => {
      const at = ends.get(act.id);
      if (act.act !== 'taken' || at === undefined || (standing.has(act.id) && !replaced.has(act.id)))
        return [];
      const { station, thicknessMm, flag } = act;
      return [{ at, how: 'round', was: [{ ...station, thicknessMm, flag, repeat: 0 }] }];
    })
    .sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
}

/** What stood at a place before, the latest first. */
export function historyAt(
  history: readonly Replaced[],
  place: Pick<Reading, 'blade' | 'fromTipMm' | 'across'>,
): readonly Replaced[] {
  const key = placeKey(place);
  return history.filter(({ was }) => was[0] !== undefined && placeKey(was[0]) === key).toReversed();
}
