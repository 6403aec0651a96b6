// Plans simulated reeds and counts what truly ends under a floor: npm run study:floors -- [REEDS] [FIRST_SEED].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [reeds = '1000', first = '1'] = process.argv.slice(2);
const { floorsAfterPlans } = await import(
  pathToFileURL(await bundleForNode('tests/study/floors-after-plans.ts')).href
);
const { reedsWithSteps, places, under, near } = floorsAfterPlans(Number(reeds), Number(first));
const percent = (count) => `${((100 * count) / places).toFixed(2)} %`;
console.log(`${reeds} reeds, ${reedsWithSteps} with something to scrape, ${places} places with strokes`);
console.log(`truly under the floor afterwards: ${under}, ${percent(under)} (at most 5 %)`);
console.log(`truly less than 0.02 mm above it, or under it: ${near}, ${percent(near)}`);
process.exitCode = places > 0 && under / places <= 0.05 ? 0 : 1;
