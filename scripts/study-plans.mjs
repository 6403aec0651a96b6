// Plans simulated reeds and looks at every place that is outlined: npm run study:plans -- [PLANS] [FIRST_SEED].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [plans = '1000', first = '1'] = process.argv.slice(2);
const { cutByPlans } = await import(pathToFileURL(await bundleForNode('tests/study/cut-by-plans.ts')).href);
const found = cutByPlans(Number(plans), Number(first));
for (const [name, count] of Object.entries(found)) {
  const isShare = !['plans', 'plansWithSteps', 'steps', 'places', 'moreThanHalf'].includes(name);
  const share = isShare ? `, ${((100 * count) / Math.max(1, found.places)).toFixed(3)} % of the places` : '';
  console.log(`${name}: ${count}${share}`);
}
const faults = found.notMeasurable + found.intoFloor + found.nearerThanMargin + found.moreThanHalf;
process.exitCode = found.places > 0 && faults === 0 && found.under <= 0.05 * found.places ? 0 : 1;
