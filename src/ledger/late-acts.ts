import type { Id } from '../../shared/ids.ts';
import type { Act, Round } from '../../shared/round.ts';
import type { Versions } from '../../shared/stamp.ts';
import type { Database } from './database.ts';
import { readActs } from './rows.ts';
import { listOf, readRows } from './store.ts';

/** A finished round with acts that are not in its pass. */
export interface LateRound {
  readonly round: Round;
  /** The whole log. */
  readonly acts: readonly Act[];
}

/** Where it is remembered which finished rounds may have late acts. */
const LATE = 'late rounds';

/** For each writer, the count of its last act: what a round that is finished now has seen. */
export function lastCounts(acts: readonly Act[]): Versions {
  const counts: Record<Id, number> = {};
  for (const { deviceId, seq } of acts) counts[deviceId] = Math.max(counts[deviceId] ?? 0, seq);
  return counts;
}

/** Acts that came after the round had become a pass. Of a round that an older program has finished none are known. */
export function lateActs({ closedAs, closedWith }: Round, acts: readonly Act[]): readonly Act[] {
  if (closedAs === undefined || !closedWith) return [];
  return acts.filter(({ deviceId, seq }) => seq > (closedWith[deviceId] ?? 0));
}

/** Finished rounds, of those named, whose logs have late acts. */
async function lateAmong(db: Database, ids: readonly Id[]): Promise<LateRound[]> {
  const rows = await readRows(db, ids);
  const closed = rows.flatMap((row) => {
    const first = row?.shown[0];
    return first?.kind === 'round' && first.closedAs !== undefined && !first.deletedAt ? [first] : [];
  });
  const logs = new Map<Id, Act[]>(closed.map(({ id }) => [id, []]));
  const records = await db.acts
    .where('roundId')
    .anyOf([...logs.keys()])
    .toArray();
  for (const act of readActs(records).acts) logs.get(act.roundId)?.push(act);
  return closed
    .map((round) => ({ round, acts: logs.get(round.id) ?? [] }))
    .filter(({ round, acts }) => lateActs(round, acts).length > 0);
}

const remembered = async (db: Database) => listOf((await db.remembered.get(LATE))?.value) as readonly Id[];

/** Inside a transaction: remembers which of some rounds have late acts by now. */
export async function noteLate(db: Database, touched: readonly Id[]): Promise<void> {
  if (touched.length === 0) return;
  const late = await lateAmong(db, touched);
  if (late.length === 0) return;
  const all = new Set([...(await remembered(db)), ...late.map(({ round }) => round.id)]);
  await db.remembered.put({ key: LATE, value: [...all] });
}

/** Finished rounds with acts that nobody has decided on yet. */
export const readLate = async (db: Database): Promise<readonly LateRound[]> =>
  lateAmong(db, await remembered(db));
