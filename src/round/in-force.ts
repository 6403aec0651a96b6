import { ascending } from 'd3-array';
import type { Id } from '../../shared/ids.ts';
import type { Act } from '../../shared/round.ts';

/** The acts of a round in the order of their devices' counters, each once: merging logs in any order gives the same. */
export function inSequence(acts: readonly Act[]): Act[] {
  const once = [...new Map(acts.map((act) => [act.id, act])).values()];
  return once.sort(
    (a, b) => ascending(a.seq, b.seq) || ascending(a.deviceId, b.deviceId) || ascending(a.id, b.id),
  );
}

/** Ids of the acts that stand: those not taken back by a withdrawal that itself stands. */
export function standingIds(acts: readonly Act[]): ReadonlySet<Id> {
  const withdrawnBy = new Map<Id, Id[]>();
  for (const act of acts) {
    if (act.act !== 'withdrawn') continue;
    const known = withdrawnBy.get(act.of);
    if (known) known.push(act.id);
    else withdrawnBy.set(act.of, [act.id]);
  }
  const stands = new Map<Id, boolean>();
  for (const { id } of acts) settle(id, withdrawnBy, stands);
  return new Set(acts.map(({ id }) => id).filter((id) => stands.get(id)));
}

/** Decides an act after the withdrawals of it. Kept as a list, since a log from outside may chain without end. */
function settle(id: Id, withdrawnBy: ReadonlyMap<Id, readonly Id[]>, stands: Map<Id, boolean>): void {
  const waiting = [id];
  const seen = new Set(waiting);
  while (waiting.length > 0) {
    const current = waiting[waiting.length - 1]!;
    const by = withdrawnBy.get(current) ?? [];
    const undecided = by.find((withdrawal) => !stands.has(withdrawal) && !seen.has(withdrawal));
    if (undecided !== undefined) {
      waiting.push(undecided);
      seen.add(undecided);
      continue;
    }
    stands.set(current, !by.some((withdrawal) => stands.get(withdrawal)));
    waiting.pop();
  }
}
