// Measures the page with a library as it is after many years: `npm run bench:library -- [reeds] [photographs]`.
import { pathToFileURL } from 'node:url';
import { buildWhatChanged } from './build-what-changed.mjs';
import { bundleForNode } from './bundle-for-node.mjs';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';

/** The size to build for. */
const REEDS = 5000;
const PHOTOS = 1000;

await runPlainly(async () => {
  ensurePackages();
  await buildWhatChanged();
  const { grownLibrary, photographs } = await import(
    pathToFileURL(await bundleForNode('tests/bench/grown.ts')).href
  );
  const [reeds = REEDS, photos = PHOTOS] = process.argv.slice(2).map(Number);
  const log = (line) => console.log(line);
  const measured = [
    ...(reeds > 0 ? await grownLibrary(reeds, log) : []),
    ...(photos > 0 ? await photographs(photos, log) : []),
  ];
  for (const { name, value, unit, limit, note } of measured) {
    const isOver = limit !== undefined && value > limit;
    if (isOver) process.exitCode = 1;
    const within = limit === undefined ? '' : ` (limit ${limit})`;
    console.log(
      `${isOver ? 'OVER' : 'ok  '} ${name}: ${value.toPrecision(3)} ${unit}${within}${note ? `, ${note}` : ''}`,
    );
  }
});
