// Pictures of every place of the built page, and what differs between two sets of them.
//
//   npm run screens -- take before        into screenshots/before; then change something and build again
//   npm run screens -- take after
//   npm run screens -- compare before after
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [act, ...names] = process.argv.slice(2);
const folders = names.map((name) => `screenshots/${name}`);
const { takeScreens, compareScreens } = await import(
  pathToFileURL(await bundleForNode('tests/journeys/screens.ts')).href
);

if (act === 'take' && folders.length === 1) {
  console.log(`${await takeScreens(folders[0])} pictures in ${folders[0]}`);
} else if (act === 'compare' && folders.length === 2) {
  const found = await compareScreens(...folders);
  console.log(found.length === 0 ? 'every screen is the same to the pixel' : found.join('\n'));
  process.exitCode = found.length === 0 ? 0 : 1;
} else {
  console.error('usage: npm run screens -- take NAME | compare NAME NAME');
  process.exitCode = 1;
}
