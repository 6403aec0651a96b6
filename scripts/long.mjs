// Runs everything that takes long, one after the other, and writes one table: npm run long -- [NAME...].
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { ensurePackages } from './ensure.mjs';
import { runPlainly } from './plain-error.mjs';
import { npmCommand } from './programs.mjs';

/** What takes long, by the names that package.json may have for it: a name that ends in a colon is all that begin so. */
const LONG = ['engines', 'mutants', 'torture', 'fuzz', 'study:', 'bench', 'examples:'];
const TABLE = 'node_modules/.cache/hundredths/long';

function wanted(names) {
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8'));
  const isLong = (script) =>
    LONG.some((name) => script === name || (name.endsWith(':') && script.startsWith(name)));
  return Object.keys(scripts).filter(
    (script) => isLong(script) && (names.length === 0 || names.includes(script)),
  );
}

/** The last words of a run: what it found, or what stopped it. */
const lastLine = (text) => text.trim().split('\n').at(-1)?.trim().slice(0, 100) ?? '';

function run(script) {
  console.log(`... ${script}`);
  const started = Date.now();
  const [program, ...args] = npmCommand(['run', '--silent', script]);
  const { status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1e9 });
  writeFileSync(`${TABLE}/${script.replace(':', '-')}.log`, stdout + stderr);
  const minutes = ((Date.now() - started) / 60_000).toFixed(1);
  const said = lastLine(status === 0 ? stdout : stderr || stdout).replaceAll('|', '/');
  return {
    script,
    isFine: status === 0,
    row: `| ${script} | ${status === 0 ? 'fine' : 'FAILED'} | ${minutes} | ${said} |`,
  };
}

await runPlainly(() => {
  ensurePackages();
  mkdirSync(TABLE, { recursive: true });
  const results = wanted(process.argv.slice(2)).map(run);
  const table = [
    '| what | result | minutes | its last words |',
    '| --- | --- | ---: | --- |',
    ...results.map(({ row }) => row),
  ];
  writeFileSync(`${TABLE}/table.md`, `${table.join('\n')}\n`);
  console.log(`\n${table.join('\n')}\n\nEverything that was said lies in ${TABLE}/.`);
  return results.every(({ isFine }) => isFine) ? 0 : 1;
});
