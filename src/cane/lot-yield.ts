import type { Lot, Piece } from '../../shared/cane.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { lotOf } from './lot-of.ts';

/** What became of a lot so far. */
export interface LotYield {
  readonly pieces: number;
  readonly kept: number;
  readonly reeds: number;
  readonly goodReeds: number;
}

interface Kept {
  readonly pieces: readonly Piece[];
  readonly reeds: readonly Reed[];
  readonly trials: readonly Trial[];
}

export const NO_REASON = 'no reason written';

/** A good reed is a favourite, or one that a trial found fit for a rehearsal or a concert. */
export function isGood(reed: Reed, trials: readonly Trial[]): boolean {
  return (
    reed.favourite !== undefined ||
    trials.some(
      ({ reedId, verdict }) => reedId === reed.id && (verdict === 'concert' || verdict === 'rehearsal'),
    )
  );
}

/** Counts what became of a lot: pieces, those that were kept, reeds, good reeds. */
export function lotYield(lot: Pick<Lot, 'id' | 'code'>, { pieces, reeds, trials }: Kept): LotYield {
  const own = pieces.filter(({ lotId }) => lotId === lot.id);
  const made = reeds.filter((reed) => lotOf(reed, [lot]));
  return {
    pieces: own.length,
    kept: own.filter(({ fate }) => fate !== undefined && fate !== 'rejected').length,
    reeds: made.length,
    goodReeds: made.filter((reed) => isGood(reed, trials)).length,
  };
}
