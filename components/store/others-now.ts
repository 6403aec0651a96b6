import type { Reed } from '../../shared/reed.ts';
import { FULL_ENOUGH } from '../../src/answers/library-words.ts';
import type { Snapshot } from '../../src/ledger/snapshot.ts';
import { examplesOf } from '../../src/plan/examples-of.ts';
import { libraryIndex } from './library-index.ts';
import type { OthersNow } from './model-cache.ts';
import type { Passes } from './readings-cache.ts';

/** So many of the last reeds are asked at most. */
const MOST = 120;

/**
 * The maker's other reeds of the same style, oldest first, for a reed that was read in few places. None that it may be
 * compared with is among them: no favourite, and no example of any target; what is measured on it does not come from these.
 */
export function othersNow(snapshot: Snapshot, reed: Reed, passes: Passes): OthersNow | undefined {
  const counts = passes.map((pass) => ('readings' in pass ? pass.readings.length : pass.readingCount));
  const most = Math.max(0, ...counts);
  if (most >= 2 * FULL_ENOUGH) return undefined;
  const examples = new Set(
    snapshot.live.target.flatMap(({ recipe }) => examplesOf(recipe).map(({ reedId }) => reedId)),
  );
  const { reeds, passesOf } = libraryIndex(snapshot);
  const others = reeds
    .filter(
      ({ id, styleId, favourite }) =>
        id !== reed.id &&
        styleId === reed.styleId &&
        !favourite &&
        !examples.has(id) &&
        passesOf(id).length > 0,
    )
    .sort((a, b) => a.createdAt.localeCompare(b.createdAt))
    .slice(-MOST);
  const all = others.flatMap(({ id }) => passesOf(id));
  const key = [...others, ...all].map(({ id, versions }) => `${id} ${JSON.stringify(versions)}`).join();
  return { key, reeds: others, passes: all };
}
