import type { Place } from '../../shared/blade.ts';
import type { Station } from '../../shared/grid.ts';
import { makeId, type Id } from '../../shared/ids.ts';
import type { Act, Round } from '../../shared/round.ts';
import { inOrder } from '../../src/round/station-order.ts';
import { roundPlans } from '../../src/round/round-plans.ts';
import type { KeepAct } from '../../components/round/act-queue.ts';

const DEVICE_ID = makeId(1.7e12, new Uint8Array(10));
export const ROUND_ID = makeId(1.7e12 + 1, new Uint8Array(10));

/** An invented full map, row by row and turning, in the order in which it is read. */
export const FULL_MAP: readonly Station[] = inOrder(roundPlans('long').at(-1)!.stations, {
  order: 'rows-turning',
  bladeByBlade: true,
  sameSideFirst: false,
  beginOn: 'left',
});

export function inventedRound(stations: readonly Station[] = FULL_MAP): Round {
  return {
    kind: 'round',
    formatVersion: 1,
    id: ROUND_ID,
    versions: { [DEVICE_ID]: 1 },
    createdAt: '2026-03-01T20:00:00+01:00',
    updatedAt: '2026-03-01T20:00:00+01:00',
    invented: true,
    reedId: DEVICE_ID,
    passIndex: 3,
    plan: 'Full map',
    stations: [...stations],
    about: {},
    startedAt: '2026-03-01T20:00:00+01:00',
  };
}

/** An invented thickness, in hundredths: thin at the tip, thinner at the edges. */
export function inventedCount({ fromTipMm, across }: Place): number {
  const centre = fromTipMm < 6 ? 9 + 6.5 * fromTipMm : 46 + 0.7 * (fromTipMm - 6);
  return Math.round(centre * (1 - 0.25 * Math.abs(across)));
}

/** A log in memory that keeps each act after a turn of the event loop. */
export function memoryLog(start: readonly Act[] = []) {
  const acts: Act[] = [...start];
  const keep: KeepAct = async (draft) => {
    await Promise.resolve();
    const id: Id = draft.id ?? makeId(1.7e12 + 2 + acts.length, new Uint8Array(10));
    const act = {
      ...draft,
      id,
      deviceId: DEVICE_ID,
      seq: acts.length + 1,
      at: '2026-03-01T20:01:00+01:00',
    } as Act;
    acts.push(act);
    return act;
  };
  return { acts, keep };
}
