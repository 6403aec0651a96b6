import type { Id } from '../../shared/ids.ts';
import type { Round } from '../../shared/round.ts';
import type { OfferedPlan } from '../../src/round/own-plans.ts';
import { inOrder, USUAL_GOING, type Going } from '../../src/round/station-order.ts';
import type { PassDetails } from '../pass-details/pass-details.ts';
import { gaugeInUse } from '../store/gauge-in-use.ts';
import type { LibraryStore } from '../store/library-store.ts';

/**
 * Begins a round of a reed: the pass after its last, with the gauge in use, in the plan's order and from the maker's side.
 *
 * @param about What is known of the pass beforehand.
 * @param short What a short round is to answer, and how surely.
 * @returns False when it could not be kept.
 */
export function beginRound(
  store: LibraryStore,
  reedId: Id,
  plan: OfferedPlan,
  about: PassDetails = {},
  short?: Round['short'],
): Promise<boolean> {
  const going: Going = {
    ...USUAL_GOING,
    ...plan,
    beginOn: store.choices.handedness === 'left' ? 'right' : 'left',
  };
  const round = {
    kind: 'round' as const,
    reedId,
    passIndex: (store.passesOf(reedId).at(-1)?.index ?? -1) + 1,
    plan: plan.name,
    stations: inOrder(plan.stations, going),
    about: { ...gaugeInUse(store), ...about },
    ...(short && { short }),
    startedAt: store.ledger.now(),
    ...(store.reed(reedId)?.invented && { invented: true as const }),
  };
  return store.keep([round], 'a round begun');
}
