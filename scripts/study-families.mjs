// Fits reeds of several families, hands, gauges and extents, and sets every figure beside the truth:
// npm run study:families -- [REEDS A CELL] [FIRST SEED] [FAMILY,...] [EXTENT,...] ; NAMED=1 lists faults named in clean passes,
// BAD=0.05 lets so many of the readings sit badly.
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { cellsOf, lastSeed } from './study-cells.mjs';

const EVERY = 'usual,sharp,slow,channels,short,place,spine,rails,thick,thin,soft bark,mixed';
const [reeds = '6', first = '700001', families = EVERY, extents = 'full,ragged,half,centre,partial'] =
  process.argv.slice(2);
const { studyCell, joined } = await import(
  pathToFileURL(await bundleForNode('tests/study/family-study.ts')).href
);
// Two reeds in three are read by a dial, the third by a fine gauge.
const shares = { dial: 2 / 3, fine: 1 / 3 };
const asked = cellsOf({ families, extents }, Number(first), (gauge) =>
  Math.ceil(Number(reeds) * shares[gauge]),
);
const cells = asked.map(({ settings, seed, count }) => ({
  ...settings,
  ...studyCell({ ...settings, badShare: Number(process.env.BAD ?? 0) }, seed, count),
}));
console.log(
  `seeds ${first} to ${lastSeed(asked)}; each figure: covered by its 95 % interval, % / root mean square error, µm`,
);

const FIGURES = [
  ...['tip', 'ridge', 'heart', 'back'].map((region) => `points ${region}`),
  ...['zone tip', 'zone heart', 'zone back', 'zone removed'],
  ...['touched', 'touched unread', 'untouched', 'untouched unread'],
];
const percent = (part, whole) => ((100 * part) / whole).toFixed(1);
function row(own) {
  const sum = joined(own.map(({ tallies }) => tallies));
  const figure = (name) => {
    const tally = sum.get(name);
    if (!tally) return '-';
    return `${percent(tally.within, tally.count)}/${(1000 * Math.sqrt(tally.squaresMm2 / tally.count)).toFixed(1)}`;
  };
  const [touched, untouched, seating, placement] = ['touched', 'untouched', 'seating', 'placement'].map(
    (name) => sum.get(name),
  );
  const passes = own.reduce((all, { cleanPasses }) => all + cleanPasses, 0);
  const named = own.reduce((all, cell) => all + cell.named.length, 0);
  return {
    ...Object.fromEntries(FIGURES.map((name) => [name.replace('points ', ''), figure(name)])),
    'bias %': percent(touched.sumMm, touched.truthMm),
    'untouched called %': percent(untouched.measurable, untouched.count),
    'seating, times true': (1 + seating.sumMm / seating.truthMm).toFixed(2),
    'placement mm': ((placement.sumMm + placement.truthMm) / placement.count).toFixed(3),
    'named %': percent(named, passes),
    passes,
  };
}
const rows = {};
for (const by of ['family', 'extent', 'handMm', 'gauge'])
  for (const value of new Set(cells.map((cell) => cell[by])))
    rows[by === 'handMm' ? `hand ${value}` : value] = row(cells.filter((cell) => cell[by] === value));
rows.all = row(cells);
console.table(rows);
if (process.env.NAMED) for (const { named } of cells) for (const line of named) console.log(line);
