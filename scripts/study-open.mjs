// Plants faults in the last pass of reeds of several families and counts what is told of them, how often removed zones are
// covered while they are open, and what is found in the passes as they were read:
// npm run study:open -- [REEDS A CELL] [FIRST SEED] [FAMILY,...] [EXTENT,...] ; NAMED=1 lists what is named in clean passes.
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { cellsOf, lastSeed } from './study-cells.mjs';

const [
  reeds = '1',
  first = '5700001',
  families = 'place,spine,rails,thick,thin,soft bark',
  extents = 'full,half',
] = process.argv.slice(2);
const { studyOpen } = await import(pathToFileURL(await bundleForNode('tests/study/open-study.ts')).href);
const cells = cellsOf({ families, extents }, Number(first), () => Number(reeds));
const cases = [];
const clean = [];
for (const { settings, seed, count } of cells) {
  const { family, extent, handMm, gauge } = settings;
  const studied = studyOpen(settings, seed, count);
  const where = `${family} ${extent} ${handMm} ${gauge} from seed ${seed}`;
  cases.push(...studied.cases.map((one) => ({ ...one, extent })));
  clean.push(...studied.clean.map((faults) => ({ faults, extent, hand: `hand ${handMm}`, where })));
}
console.log(`seeds ${first} to ${lastSeed(cells)}`);

const percent = (part, whole) => (whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)} % of ${whole}`);
const zones = (some, which) =>
  percent(
    some.reduce((sum, one) => sum + one[which].within, 0),
    some.reduce((sum, one) => sum + one[which].zones, 0),
  );
const rows = {};
for (const extent of extents.split(','))
  for (const fault of new Set(cases.map((one) => one.fault))) {
    const own = cases.filter((one) => one.fault === fault && one.extent === extent);
    const told = own.filter(({ isTold }) => isTold);
    rows[`${extent} ${fault}`] = {
      told: percent(told.length, own.length),
      'covered, told': zones(told, 'open'),
      'the same as written': zones(told, 'asWritten'),
      'covered, all': zones(own, 'open'),
    };
  }
console.table(rows);
const isNamed = ({ faults }) => faults.some(({ grade }) => grade === 'named');
for (const by of ['extent', 'hand'])
  for (const value of new Set(clean.map((one) => one[by]))) {
    const own = clean.filter((one) => one[by] === value);
    console.log(
      `clean passes, ${value}: named ${percent(own.filter(isNamed).length, own.length)}, named or asked ${percent(own.filter(({ faults }) => faults.length > 0).length, own.length)}`,
    );
  }
console.log(`clean passes, all: named ${percent(clean.filter(isNamed).length, clean.length)}`);
if (process.env.NAMED)
  for (const { faults, where } of clean.filter(isNamed))
    console.log(
      `${where}: ${faults.map(({ kind, blade, grade, evidence, valueMm }) => `${kind} ${blade} ${grade} ${evidence.toFixed(1)} ${valueMm ?? ''}`).join(', ')}`,
    );
