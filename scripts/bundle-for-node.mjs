// Bundles one TypeScript entry for Node and returns the path of the result.
import { build } from 'esbuild';
import { basename } from 'node:path';

/** @param {string} entry path of a .ts file */
export async function bundleForNode(entry) {
  const outfile = `node_modules/.cache/hundredths/${basename(entry, '.ts')}.mjs`;
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    // Tools that find their own files cannot be bundled.
    external: ['esbuild', 'playwright-core'],
    format: 'esm',
    target: 'node20',
    sourcemap: 'inline',
    logLevel: 'error',
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
  });
  return outfile;
}
