import type { Lot, Piece } from '../../shared/cane.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { proportionInterval } from '../numerics/proportion-interval.ts';
import { lotOf } from './lot-of.ts';
import { isGood, NO_REASON } from './lot-yield.ts';

/** What did not go on from a stage, with the reason. */
export interface LeftFlow {
  readonly reason: string;
  readonly count: number;
}

/** A stage on the way from a gouged piece to a good reed. */
export interface FlowStage {
  readonly name: 'gouged' | 'kept' | 'tied' | 'tried' | 'good';
  readonly count: number;
  /** Of these, what left before the next stage, and how many are not decided yet: with those that go on they add up. */
  readonly left: readonly LeftFlow[];
  readonly undecided: number;
  /** Of those of the stage before that are decided, the share that came here, 95 %; absent for the first, and without any. */
  readonly share?: ReturnType<typeof proportionInterval>;
}

interface Kept {
  readonly pieces: readonly Piece[];
  readonly reeds: readonly Reed[];
  readonly trials: readonly Trial[];
}

function counted(reasons: readonly string[]): LeftFlow[] {
  const counts = new Map<string, number>();
  for (const reason of reasons) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  return [...counts].map(([reason, count]) => ({ reason, count })).sort((a, b) => b.count - a.count);
}

const endOf = ({ retirement }: Reed) => retirement?.cause ?? 'retired';

/**
 * The way of a lot from gouged pieces to good reeds, as counts: every stage is what goes on, what left and what is not
 * decided yet. A reed of the lot whose piece is not written down was gouged and kept all the same.
 */
export function lotFlow(lot: Pick<Lot, 'id' | 'code'>, { pieces, reeds, trials }: Kept): FlowStage[] {
  const own = pieces.filter(({ lotId }) => lotId === lot.id);
  const made = reeds.filter((reed) => lotOf(reed, [lot]));
  const ofPiece = new Set(made.flatMap(({ pieceId }) => pieceId ?? []));
  const ids = new Set<string>(own.map(({ id }) => id));
  const without = made.filter(({ pieceId }) => pieceId === undefined || !ids.has(pieceId)).length;
  const rejected = own.filter(({ id, fate }) => fate === 'rejected' && !ofPiece.has(id));
  const kept = own.filter(({ id, fate }) => ofPiece.has(id) || (fate !== undefined && fate !== 'rejected'));
  const verdictOf = new Map<string, Trial['verdict']>();
  for (const { reedId, verdict } of trials) if (verdict !== undefined) verdictOf.set(reedId, verdict);
  const tried = made.filter((reed) => verdictOf.has(reed.id) || reed.favourite !== undefined);
  const untried = made.filter((reed) => !tried.includes(reed));
  const good = tried.filter((reed) => isGood(reed, trials));
  const notGood = tried.filter((reed) => !good.includes(reed));
  const isEnded = (reed: Reed) => reed.state === 'retired';
  const calledNo = (reed: Reed) => !isEnded(reed) && verdictOf.get(reed.id) === 'no';
  const gone = [...notGood.filter(isEnded).map(endOf), ...notGood.filter(calledNo).map(() => 'called no')];
  const stages: Omit<FlowStage, 'share'>[] = [
    {
      name: 'gouged',
      count: own.length + without,
      left: counted(rejected.map(({ reason }) => reason ?? NO_REASON)),
      undecided: own.length - kept.length - rejected.length,
    },
    { name: 'kept', count: kept.length + without, left: [], undecided: kept.length + without - made.length },
    {
      name: 'tied',
      count: made.length,
      left: counted(untried.filter(isEnded).map(endOf)),
      undecided: untried.filter((reed) => !isEnded(reed)).length,
    },
    { name: 'tried', count: tried.length, left: counted(gone), undecided: notGood.length - gone.length },
    { name: 'good', count: good.length, left: [], undecided: 0 },
  ];
  return stages.map((stage, k) => {
    const before = stages[k - 1];
    const decided = before ? before.count - before.undecided : 0;
    return { ...stage, ...(decided > 0 && { share: proportionInterval(stage.count, decided) }) };
  });
}
