// Kills the browser again and again in the middle of its work, and looks whether anything was lost.
import { build } from 'esbuild';
import { pathToFileURL } from 'node:url';

const outfile = 'node_modules/.cache/hundredths/torture-cli.mjs';
await build({
  entryPoints: ['tests/torture/cli.ts'],
  outfile,
  bundle: true,
  packages: 'external',
  platform: 'node',
  format: 'esm',
  logLevel: 'error',
});
const { main } = await import(pathToFileURL(outfile).href);
process.exitCode = await main(process.argv.slice(2));
