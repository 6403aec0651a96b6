// Fails when the built page outgrows its budget (gzip, KiB = 1024 bytes).
import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const ASSETS = 'dist/assets';
const gzipKib = (name) => gzipSync(readFileSync(`${ASSETS}/${name}`), { level: 9 }).length / 1024;
const scripts = readdirSync(ASSETS).filter((name) => name.endsWith('.js'));

const html = readFileSync('dist/index.html', 'utf8');
const initial = new Set(scripts.filter((name) => html.includes(name)));
// What the first scripts import statically is loaded with them.
for (const name of initial) {
  const code = readFileSync(`${ASSETS}/${name}`, 'utf8');
  for (const [, imported] of code.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g))
    initial.add(imported);
}
const scene = scripts.filter(
  (name) => !initial.has(name) && readFileSync(`${ASSETS}/${name}`, 'utf8').includes('WebGLRenderer'),
);

const sum = (names) => [...names].reduce((total, name) => total + gzipKib(name), 0);
const budgets = [
  ['initial script', sum(initial), 150],
  ['initial script with three.js', sum(initial) + sum(scene), 330],
];
let failed = false;
for (const [name, size, limit] of budgets) {
  console.log(`${name}: ${size.toFixed(1)} of ${limit} KiB`);
  if (size > limit) failed = true;
}
process.exit(failed ? 1 : 0);
