// Writes one reading of generated first passes wrong, in each of five ways, and counts what is told of it and what is asked
// of the passes as they were read: npm run study:slips -- [REEDS A CELL] [FIRST SEED] [FAMILY,...].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';
import { cellsOf, lastSeed } from './study-cells.mjs';

const [reeds = '10', first = '5600001', families = 'place,spine,rails,thick,thin,soft bark'] =
  process.argv.slice(2);
const { studySlips } = await import(pathToFileURL(await bundleForNode('tests/study/slips-study.ts')).href);
const cells = cellsOf({ families, extents: 'full' }, Number(first), () => Number(reeds));
const slips = [];
const clean = [];
for (const { settings, seed, count } of cells) {
  const { family, gauge, handMm } = settings;
  const of = `hand ${handMm}`;
  const studied = studySlips({ family, gauge, handMm }, seed, count);
  slips.push(...studied.slips.map((slip) => ({ ...slip, family, of })));
  clean.push(...studied.clean.map((asked) => ({ asked, family, of })));
}
console.log(`seeds ${first} to ${lastSeed(cells)}; slips of 0.03 mm or more`);

const share = (part, whole) =>
  whole.length === 0 ? '-' : `${((100 * part.length) / whole.length).toFixed(1)} % of ${whole.length}`;
const row = (isIn) => {
  const [own, passes] = [slips.filter(isIn), clean.filter(isIn)];
  const told = (some) =>
    share(
      some.filter(({ odd }) => odd),
      some,
    );
  const kinds = [...new Set(slips.map(({ kind }) => kind))];
  return {
    ...Object.fromEntries(kinds.map((kind) => [kind, told(own.filter((slip) => slip.kind === kind))])),
    told: told(own),
    'clean, named': share(
      passes.filter(({ asked }) => asked.some(({ grade }) => grade === 'named')),
      passes,
    ),
    'clean, asked': share(
      passes.filter(({ asked }) => asked.length > 0),
      passes,
    ),
  };
};
const rows = { all: row(() => true) };
for (const by of ['family', 'of'])
  for (const value of new Set(clean.map((one) => one[by]))) rows[value] = row((one) => one[by] === value);
console.table(rows);
const thirds = slips.filter(({ kind }) => kind === 'third');
for (const [from, to] of [
  [0.03, 0.06],
  [0.06, 0.1],
  [0.1, 1],
]) {
  const own = thirds.filter(({ sizeMm }) => Math.abs(sizeMm) >= from && Math.abs(sizeMm) < to);
  console.log(
    `thirds of ${from} to ${to} mm: ${share(
      own.filter(({ odd }) => odd),
      own,
    )}`,
  );
}
