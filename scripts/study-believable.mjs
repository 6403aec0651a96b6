// The smallest change to believe beside 1.96 standard deviations of repeated differences, zone by zone:
// npm run study:believable -- [REEDS OF EACH] [FIRST SEED] [FAMILY,...] [EXTENT,...] [PASSES,...]
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { cellsOf, lastSeed } from './study-cells.mjs';

const [
  reeds = '1',
  first = '3200001',
  families = 'place,spine,rails,thick,thin,soft bark',
  extents = 'full,half',
  passes = '1,2,3,4',
] = process.argv.slice(2);
const { believedOf, meanBelieved } = await import(
  pathToFileURL(await bundleForNode('tests/study/believable-study.ts')).href
);
const asked = cellsOf({ families, extents }, Number(first), () => Number(reeds));
const told = passes.split(',').flatMap((count) =>
  asked.flatMap(({ settings, seed, count: own }) =>
    Array.from({ length: own }, (_, k) => ({
      ...settings,
      count: Number(count),
      believed: believedOf({ ...settings, count: Number(count), seed: seed + k }),
    })),
  ),
);
const rows = {};
for (const gauge of ['dial', 'fine'])
  for (const handMm of [0.05, 0.15, 0.25])
    for (const count of passes.split(',').map(Number)) {
      const own = told.filter((one) => one.gauge === gauge && one.handMm === handMm && one.count === count);
      const { ratios, alongMm, seating } = meanBelieved(own.map(({ believed }) => believed));
      const within = own.filter(({ believed }) =>
        Object.values(believed.ratios).every((ratio) => Math.abs(ratio - 1) <= 0.25),
      );
      rows[`${gauge}, hand ${handMm} mm, passes ${count}`] = {
        ...Object.fromEntries(Object.entries(ratios).map(([zone, ratio]) => [zone, ratio.toFixed(2)])),
        'placement mm': alongMm.toFixed(3),
        'seating, times true': seating.toFixed(2),
        'reeds within 25 % in every zone, %': ((100 * within.length) / own.length).toFixed(0),
      };
    }
console.log(
  `seeds ${first} to ${lastSeed(asked)}; smallest change to believe over what repeats differ by, 95 %`,
);
console.table(rows);
