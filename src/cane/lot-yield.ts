import type { Lot, Piece } from '../../shared/cane.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { proportionInterval } from '../numerics/proportion-interval.ts';
import { lotOf } from './lot-of.ts';

/** What became of a lot so far. */
export interface LotYield {
  readonly pieces: number;
  readonly kept: number;
  readonly rejected: number;
  /** How many pieces were rejected for each reason, most first. */
  readonly reasons: readonly { readonly reason: string; readonly count: number }[];
  readonly reeds: number;
  readonly goodReeds: number;
  /** Share of the judged pieces that were kept, and of the reeds that were good; 95 %. Absent where there are none. */
  readonly keptShare?: ReturnType<typeof proportionInterval>;
  readonly goodShare?: ReturnType<typeof proportionInterval>;
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

/** Counts what became of a lot: pieces kept or rejected and why, reeds, good reeds. */
export function lotYield(lot: Pick<Lot, 'id' | 'code'>, { pieces, reeds, trials }: Kept): LotYield {
  const own = pieces.filter(({ lotId }) => lotId === lot.id);
  const rejected = own.filter(({ fate }) => fate === 'rejected');
  const kept = own.filter(({ fate }) => fate !== undefined && fate !== 'rejected').length;
  const made = reeds.filter((reed) => lotOf(reed, [lot]));
  const goodReeds = made.filter((reed) => isGood(reed, trials)).length;
  const judged = kept + rejected.length;
  return {
    pieces: own.length,
    kept,
    rejected: rejected.length,
    reasons: counted(rejected.map(({ reason }) => reason ?? NO_REASON)),
    reeds: made.length,
    goodReeds,
    ...(judged > 0 && { keptShare: proportionInterval(kept, judged) }),
    ...(made.length > 0 && { goodShare: proportionInterval(goodReeds, made.length) }),
  };
}

function counted(reasons: readonly string[]): LotYield['reasons'] {
  const counts = new Map<string, number>();
  for (const reason of reasons) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  return [...counts].map(([reason, count]) => ({ reason, count })).sort((a, b) => b.count - a.count);
}
