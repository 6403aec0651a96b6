import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Act, Round } from '../../shared/round.ts';
import { lastCounts, lateActs } from '../ledger/late-acts.ts';
import { foldRound, type StationState } from './fold-round.ts';
import { placeKey } from './place-words.ts';
import { readingsOf } from './round-to-pass.ts';

/** A place of which late acts say something else than the pass was made from. */
export interface LateReading {
  readonly station: StationState['station'];
  /** What the pass was made from; empty where nothing was read. */
  readonly was: readonly Reading[];
  readonly now: readonly Reading[];
}

const textOf = (readings: readonly Reading[]) =>
  JSON.stringify(readings.map(({ thicknessMm, flag }) => [thicknessMm, flag]));

/** What arrived after the round had become a pass: its places, and its notes. */
export function lateReadings(round: Round, acts: readonly Act[]) {
  const late = new Set(lateActs(round, acts));
  const before = foldRound(
    round,
    acts.filter((act) => !late.has(act)),
  );
  const after = foldRound(round, acts);
  const at = (key: string): readonly Reading[] => {
    const state = before.byKey.get(key);
    return state ? readingsOf(state) : [];
  };
  const places = after.stations
    .map((state): LateReading => ({ station: state.station, was: at(state.key), now: readingsOf(state) }))
    .filter(({ was, now }) => textOf(was) !== textOf(now));
  return { places, notes: after.notes.filter((note) => !before.notes.includes(note)) };
}

/** Late readings beside what the maker has changed at that place since. */
function beside(there: readonly Reading[], { was, now }: LateReading): readonly Reading[] {
  if (textOf(there) === textOf(was)) return now;
  const values = was.map(({ thicknessMm }) => thicknessMm);
  const fresh = now.filter(({ thicknessMm }) => thicknessMm !== undefined && !values.includes(thicknessMm));
  const read = there.filter(({ thicknessMm }) => thicknessMm !== undefined);
  if (fresh.length === 0) return there;
  return [...read, ...fresh].map((reading, repeat) => ({ ...reading, repeat }));
}

/**
 * A pass with what arrived after its round was finished: as if it had been there, but where the maker has changed the
 * readings of a place since, late ones stand beside them as repeats.
 */
export function withLate(pass: Pass, round: Round, acts: readonly Act[]): Pass {
  const { places, notes } = lateReadings(round, acts);
  const late = new Map(places.map((one) => [placeKey(one.station), one]));
  const there = new Map<string, Reading[]>();
  for (const reading of pass.readings) {
    const known = there.get(placeKey(reading));
    if (known) known.push(reading);
    else there.set(placeKey(reading), [reading]);
  }
  for (const key of late.keys()) if (!there.has(key)) there.set(key, []);
  const note = [pass.note, ...notes].filter((text) => text !== undefined && text !== '').join('\n');
  return {
    ...pass,
    ...(note !== '' && { note }),
    readings: [...there].flatMap(([key, readings]) => {
      const one = late.get(key);
      return one ? beside(readings, one) : readings;
    }),
  };
}

/** The round once its late acts have been decided on. */
export const decided = (round: Round, acts: readonly Act[]): Round => ({
  ...round,
  closedWith: lastCounts(acts),
});
