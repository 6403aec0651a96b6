import { taughtBy } from '../../src/family/of-library.ts';
import { inventedMaker } from '../generator/makers.ts';
import { seededRandom } from '../seeded-random.ts';
import { pacedMs } from './clock.ts';

const REEDS = 300;
/** Every fifth reed has gaps of its own, a quarter of its places. */
const RAGGED = { every: 5, share: 0.25 } as const;

/** Time to learn what a library of one style and stage teaches, trust and change of style among it. */
export default async function run() {
  const maker = inventedMaker('steady', 31);
  const random = seededRandom(32);
  const reeds = Array.from({ length: REEDS }, (_, k) => {
    const { readings } = maker.reed(k).passes[0]!;
    return {
      readings: k % RAGGED.every === 0 ? readings.filter(() => random() >= RAGGED.share) : readings,
      ...{ seatingMm: 0.005, zeroMm: 0.0015 },
    };
  });
  return Promise.resolve([
    {
      name: `what ${REEDS} reeds teach`,
      value: pacedMs(() => taughtBy(reeds), 3),
      unit: 'ms',
      limit: 3000,
      note: `${REEDS / RAGGED.every} of them read in ways of their own`,
    },
  ]);
}
