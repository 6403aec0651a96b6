// Few readings with what a maker's library teaches beside half a grid without, on invented makers:
// npm run study:fewer -- [MAKERS A CELL] [FIRST SEED] [REEDS,...] [KIND,...]
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [makers = '10', first = '400001', counts = '5,10,30,60', kinds = 'steady,varied,changing,mixed'] =
  process.argv.slice(2);
const { studyAfterChange, studyFewer, FEW_PLACES } = await import(
  pathToFileURL(await bundleForNode('tests/study/fewer-study.ts')).href
);
const NAMES = [
  ...['tip', 'ridge', 'heart', 'back'],
  ...['zone tip', 'zone blend', 'zone heart', 'zone back', 'blade', 'sides'],
];
const percent = ({ part, whole }) => (whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)} of ${whole}`);
const REEDS_EACH = 4;
console.log(
  `seeds ${first} on, ${makers} makers a line, ${REEDS_EACH} reeds of each; covered by the 95 % interval, % / root mean square error, µm / half-width, µm; ${FEW_PLACES} places a blade with the library, 35 without`,
);
const asWords = (beside) =>
  Object.fromEntries(
    NAMES.map((figure) => {
      const { count: n, within, squaresMm2, halvesMm } = beside.get(figure);
      const rms = 1000 * Math.sqrt(squaresMm2 / n);
      return [
        figure,
        `${((100 * within) / n).toFixed(0)}/${rms.toFixed(1)}/${((1000 * halvesMm) / n).toFixed(1)}`,
      ];
    }),
  );
const figures = {};
const marks = {};
for (const count of counts.split(',').map(Number))
  for (const kind of kinds.split(',')) {
    const from = performance.now();
    const result = studyFewer(kind, count, Number(first), Number(makers), REEDS_EACH);
    for (const [name, beside] of [
      ['with', result.learned],
      ['35 without', result.half],
    ])
      figures[`${kind} ${count} ${name}`] = asWords(beside);
    console.error(`${kind} ${count}: done in ${((performance.now() - from) / 1000).toFixed(0)} s`);
    const { own, strangers, slips, clean, changes, strayed, untaught } = result;
    marks[`${kind} ${count}`] = {
      'own outside %': percent({ part: own.outside, whole: own.count }),
      'strangers outside %': percent({ part: strangers.outside, whole: strangers.count }),
      'slips told %': percent({ part: slips.told, whole: slips.count }),
      'clean asked %': percent({ part: clean.asked, whole: clean.count }),
      'changes noticed %': percent({ part: changes.noticed, whole: changes.count }),
      strayed: (strayed.reduce((sum, one) => sum + one, 0) / strayed.length).toFixed(2),
      untaught,
    };
  }
console.table(figures);
console.table(marks);
if (kinds.includes('changing')) {
  const after = {};
  for (let seed = Number(first); seed < Number(first) + Number(makers); seed++) {
    const { figures: own, inFull, count, isNoticed } = studyAfterChange(seed, 15, 5);
    after[seed] = { noticed: isNoticed, 'in full': `${inFull} of ${count}`, ...asWords(own) };
  }
  console.log('The next reeds of makers who changed their style after 15 reeds');
  console.table(after);
}
