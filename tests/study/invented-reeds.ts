import { inventedLibrary } from '../../demo/scenario/invented-library.ts';
import { makeId } from '../../shared/ids.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Trial } from '../../shared/trial.ts';
import { prepareDrafts } from '../../src/ledger/drafts.ts';
import { seededRandom } from '../../src/numerics/seeded-random.ts';
import type { KnownReed } from '../../src/traits/columns.ts';
import { summarise, tellingPass } from '../../src/traits/reed-summary.ts';

const NOW = new Date('2026-03-10T12:00:00Z');

/** The invented library as whole documents, the same for the same seed. */
export function inventedDocuments(seed: number, count: number) {
  const random = seededRandom(seed + 1_000_000);
  const bytes = () => Uint8Array.from({ length: 10 }, () => Math.floor(random() * 256));
  const newId = () => makeId(NOW.getTime(), bytes());
  return prepareDrafts(inventedLibrary(NOW, seed, count), '2026-03-10T12:00:00.000Z', newId);
}

/** Its reeds with their figures, worked out. */
export function inventedReeds(seed: number, count: number): KnownReed[] {
  const documents = inventedDocuments(seed, count);
  const trials = documents.filter((one): one is Trial => one.kind === 'trial');
  const passes = new Map(
    documents.filter((one): one is Pass => one.kind === 'pass').map((pass) => [pass.reedId, pass]),
  );
  return documents
    .filter((one): one is Reed => one.kind === 'reed')
    .map((reed) => ({
      reed,
      summary: summarise(reed, tellingPass(reed, [passes.get(reed.id)!])!),
      trials: trials.filter(({ reedId }) => reedId === reed.id),
    }));
}
