// Counts how often something is said when outcomes are shuffled: npm run study:claims -- [SHUFFLES] [SEED].
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const [shuffles = '400', seed = '1'] = process.argv.slice(2);
const { studyClaims } = await import(pathToFileURL(await bundleForNode('tests/study/claims.ts')).href);
const { lines, isWithin } = studyClaims(Number(shuffles), Number(seed));
lines.forEach((line) => console.log(line));
process.exitCode = isWithin ? 0 : 1;
