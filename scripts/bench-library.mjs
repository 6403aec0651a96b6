// Measures the page with a library as it is after many years: `npm run bench:library -- [reeds]`.
import { pathToFileURL } from 'node:url';
import { buildWhatChanged } from './build-what-changed.mjs';
import { bundleForNode } from './bundle-for-node.mjs';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';

/** The size to build for. */
const REEDS = 5000;

await runPlainly(async () => {
  ensurePackages();
  await buildWhatChanged();
  const { grownLibrary } = await import(pathToFileURL(await bundleForNode('tests/bench/grown.ts')).href);
  const measured = await grownLibrary(Number(process.argv[2] ?? REEDS), (line) => console.log(line));
  for (const { name, value, unit, limit, note } of measured) {
    const isOver = limit !== undefined && value > limit;
    if (isOver) process.exitCode = 1;
    const within = limit === undefined ? '' : ` (limit ${limit})`;
    console.log(
      `${isOver ? 'OVER' : 'ok  '} ${name}: ${value.toPrecision(3)} ${unit}${within}${note ? `, ${note}` : ''}`,
    );
  }
});
