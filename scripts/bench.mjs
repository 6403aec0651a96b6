// Runs every benchmark in tests/bench and fails when one passes its limit.
import { readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { buildWhatChanged } from './build-what-changed.mjs';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';

const wanted = process.argv.slice(2);
const files = readdirSync('tests/bench').filter(
  (name) => name.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((word) => name.includes(word))),
);

/** Prints what a benchmark measured. @returns whether a limit was passed */
function tell({ name, value, unit, limit, note }) {
  const isOver = limit !== undefined && value > limit;
  const within = limit === undefined ? '' : ` (limit ${limit})`;
  console.log(
    `${isOver ? 'OVER' : 'ok  '} ${name}: ${value.toPrecision(3)} ${unit}${within}${note ? `, ${note}` : ''}`,
  );
  return isOver;
}

await runPlainly(async () => {
  ensurePackages();
  await buildWhatChanged();
  const { bundleForNode } = await import('./bundle-for-node.mjs');
  let over = 0;
  for (const file of files) {
    const { default: run } = await import(pathToFileURL(await bundleForNode(`tests/bench/${file}`)).href);
    over += (await run()).filter(tell).length;
  }
  process.exit(over > 0 ? 1 : 0);
});
