// Looks for faults in generated reeds, clean and with one planted: npm run study:faults -- [REEDS] [FIRST SEED] [KIND,KIND...].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [reeds = '500', seed = '2000', kinds] = process.argv.slice(2);
const { studyFaults } = await import(
  pathToFileURL(await bundleForNode('tests/generator/fault-study.ts')).href
);
const { settings, clean, planted } = studyFaults(Number(seed), Number(reeds), kinds?.split(','));
console.log(JSON.stringify(settings));
const percent = (part, whole) => (whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)} %`);
console.log(
  `${reeds} clean reeds from seed ${seed}, ${clean.cases} passes: named ${percent(clean.named, clean.cases)}, named or asked ${percent(clean.found, clean.cases)}`,
);
for (const [kind, extents] of Object.entries(planted))
  console.log(
    `${kind.padEnd(14)} ${Object.entries(extents)
      .map(
        ([extent, { cases, named, found }]) =>
          `${extent} ${cases}: found ${percent(found, cases)}, named ${percent(named, cases)}`,
      )
      .join('; ')}`,
  );
