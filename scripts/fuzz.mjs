// Reads a hundred thousand mutated import files: npm run fuzz -- [COUNT] [SEED]. Fails on any that does harm.
// The script is run with a heap of under 200 MB, which holds what is read and the rubbish of what was read before.
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const LIMIT_MS = 2000;
const LIMIT_MB = 200;

const [count = '100000', seed = '1'] = process.argv.slice(2);
const { fuzzImports } = await import(pathToFileURL(await bundleForNode('tests/fuzz/fuzz-imports.ts')).href);
const { failures, taken, asked, refused, worstMs, worstHeapMb } = await fuzzImports(
  Number(count),
  Number(seed),
);
failures.slice(0, 20).forEach((failure) => console.error(failure));
console.log(
  `${count} files: ${taken} taken, ${asked} asked, ${refused} refused, ${failures.length} failures; worst ${worstMs.toFixed(0)} ms, heap ${worstHeapMb.toFixed(0)} MB`,
);
process.exitCode = failures.length > 0 || worstMs > LIMIT_MS || worstHeapMb > LIMIT_MB ? 1 : 0;
