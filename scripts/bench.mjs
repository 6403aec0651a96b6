// Runs every benchmark in tests/bench and fails when one passes its limit.
import { readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { bundleForNode } from './bundle-for-node.mjs';

const wanted = process.argv.slice(2);
const files = readdirSync('tests/bench').filter(
  (name) => name.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((word) => name.includes(word))),
);
let failed = 0;
for (const file of files) {
  const { default: run } = await import(pathToFileURL(await bundleForNode(`tests/bench/${file}`)).href);
  for (const { name, value, unit, limit, note } of await run()) {
    const ok = limit === undefined || value <= limit;
    if (!ok) failed += 1;
    console.log(
      `${ok ? 'ok  ' : 'OVER'} ${name}: ${value.toPrecision(3)} ${unit}${limit === undefined ? '' : ` (limit ${limit})`}${note ? `, ${note}` : ''}`,
    );
  }
}
process.exit(failed > 0 ? 1 : 0);
