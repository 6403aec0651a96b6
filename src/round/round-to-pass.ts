import type { Pass } from '../../shared/pass.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Round } from '../../shared/round.ts';
import type { Stamp } from '../../shared/stamp.ts';
import type { RoundState, StationState } from './fold-round.ts';
import { readersIn } from './readers.ts';

/** What a place comes to in a pass. */
export function readingsOf({ station, readings, skipped }: StationState): Reading[] {
  if (skipped === 'no-cane' || skipped === 'wire') return [{ ...station, repeat: 0, flag: skipped }];
  return readings.map(({ thicknessMm, flag, method, seconds }, repeat) => ({
    ...station,
    thicknessMm,
    repeat,
    flag,
    ...(method !== undefined && { method }),
    ...(seconds !== undefined && { seconds }),
  }));
}

/**
 * The pass that a round becomes when it is closed: every reading that counts, repeats numbered, and the places where
 * there was nothing to read. Places out of reach or put off are left out: nothing is known of them.
 */
export function passFromRound(round: Round, state: RoundState): Omit<Pass, keyof Stamp> {
  const readBy = [...readersIn(state).keys()];
  const note = [round.about.note, ...state.notes].filter((text) => text !== undefined).join('\n');
  return {
    takenAt: round.startedAt,
    ...round.about,
    kind: 'pass',
    reedId: round.reedId,
    index: round.passIndex,
    remedies: [],
    ...(note !== '' && { note }),
    ...(readBy.length > 0 && { readBy }),
    readings: state.stations.flatMap(readingsOf),
  };
}
