import { pathToFileURL } from 'node:url';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';

await runPlainly(async () => {
  ensurePackages(true);
  const { bundleForNode } = await import('./bundle-for-node.mjs');
  const { main } = await import(pathToFileURL(await bundleForNode('src/report/cli.ts')).href);
  return main(process.argv.slice(2));
});
