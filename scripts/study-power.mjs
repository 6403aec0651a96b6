// How much of what went is coloured on the maps of Taken off, and how often one shows what did not go:
// npm run study:power -- [REEDS OF EACH] [FIRST SEED]
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [reeds = '2', first = '975001'] = process.argv.slice(2);
const { studyPower } = await import(pathToFileURL(await bundleForNode('tests/study/power-study.ts')).href);
const percent = (part, whole) => Number(((100 * part) / whole).toFixed(1));
const rows = [...studyPower(Number(reeds), Number(first))].map(([name, power]) => [
  name,
  {
    'places over 15 µm': power.places,
    'coloured by themselves, %': percent(power.byPlace, power.places),
    'in a place, patch or zone, %': percent(power.byAny, power.places),
    maps: power.maps,
    'with what did not go, %': percent(power.falseMaps, power.maps),
    'with growth, %': percent(power.grownMaps, power.maps),
  },
]);
console.log(`seeds from ${first}, ${reeds} reeds of each family, extent, hand and gauge`);
console.table(Object.fromEntries(rows));
