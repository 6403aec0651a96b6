import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const { main } = await import(pathToFileURL(await bundleForNode('src/report/cli.ts')).href);
process.exitCode = await main(process.argv.slice(2));
