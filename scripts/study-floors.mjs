// Plans simulated reeds and counts what truly ends under a floor: npm run study:floors -- [REEDS] [FIRST_SEED].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [reeds = '1000', first = '1'] = process.argv.slice(2);
const { FAMILIES, floorsAfterPlans } = await import(
  pathToFileURL(await bundleForNode('tests/study/floors-after-plans.ts')).href
);
const each = Math.ceil(Number(reeds) / FAMILIES.length);
const percent = (count, places) => `${((100 * count) / Math.max(1, places)).toFixed(2)} %`;
const total = { reedsWithSteps: 0, places: 0, under: 0, near: 0 };
FAMILIES.forEach((family, i) => {
  const found = floorsAfterPlans(each, Number(first) + i * each, [family]);
  for (const key of Object.keys(total)) total[key] += found[key];
  const { reedsWithSteps, places, under, near } = found;
  console.log(
    `${family.name}: ${reedsWithSteps} of ${each} with strokes, ${places} places, ` +
      `under ${percent(under, places)}, near ${percent(near, places)}`,
  );
});
const { reedsWithSteps, places, under, near } = total;
console.log(
  `${each * FAMILIES.length} reeds, ${reedsWithSteps} with something to scrape, ${places} places with strokes`,
);
console.log(`truly under the floor afterwards: ${under}, ${percent(under, places)} (at most 5 %)`);
console.log(`truly less than 0.02 mm above it, or under it: ${near}, ${percent(near, places)}`);
process.exitCode = places > 0 && under / places <= 0.05 ? 0 : 1;
