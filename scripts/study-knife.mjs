// What was taken off between two passes read in few places, with where the maker's knife usually goes learned and without:
// npm run study:knife -- [MAKERS A LINE] [FIRST SEED] [REEDS] [KNIFE,...]
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const { studyKnife, KNIVES } = await import(
  pathToFileURL(await bundleForNode('tests/study/knife-study.ts')).href
);
const [makers = '8', first = '700001', reeds = '20', knives = KNIVES.join()] = process.argv.slice(2);
const NAMES = [
  ...['touched', 'untouched', 'tip', 'ridge', 'heart', 'back'],
  ...['zone tip', 'zone blend', 'zone heart', 'zone back'],
];
console.log(
  `seeds ${first} on, ${makers} makers of ${reeds} reeds a line; covered by the 95 % interval, % / bias, % / root mean square error, µm / half-width, µm / measurable, %`,
);
const asWords = (tallies) =>
  Object.fromEntries(
    NAMES.map((name) => {
      const { count: n, within, sumMm, squaresMm2, truthMm, halvesMm, measurable } = tallies.get(name);
      const percent = (part) => ((100 * part) / n).toFixed(0);
      const bias = truthMm / n < 0.0005 ? '-' : ((100 * sumMm) / truthMm).toFixed(0);
      const half = (1000 * halvesMm.reduce((sum, one) => sum + one, 0)) / n;
      const rms = 1000 * Math.sqrt(squaresMm2 / n);
      return [name, `${percent(within)}/${bias}/${rms.toFixed(1)}/${half.toFixed(1)}/${percent(measurable)}`];
    }),
  );
const figures = {};
for (const knife of knives.split(',')) {
  const result = studyKnife(knife, Number(first), Number(makers), Number(reeds));
  figures[`${knife}, learned (${result.taught} of ${result.makers})`] = asWords(result.known);
  figures[`${knife}, without`] = asWords(result.unknown);
  console.error(`${knife}: done`);
}
console.table(figures);
