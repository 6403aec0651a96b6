// Plants faults in the numbers, one at a time, and counts those that a test notices.
//
//   npm run mutants                        every folder, 300 faults each, drawn with a seed
//   npm run mutants -- figures gauge       these folders
//   npm run mutants -- --sample 50         fewer
//   npm run mutants -- --seed 7            others: those that tests were written against say little of the rest
//   npm run mutants -- --changed           only files that differ from main; npm test does this with a few of them
//   npm run mutants -- --missed            only what the last run missed; what it noticed counts as it did
//   npm run mutants -- --planted           those of tests/mutants/planted.json, each before the tests named there
//   npm run mutants -- --raise             writes floors that have risen to tests/mutants/folders.json
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { wilson } from './mutants/wilson.mjs';

const FOLDERS = 'tests/mutants/folders.json';
/** Faults that change nothing anybody could notice, each with the reason: they do not count. */
const EQUIVALENT = JSON.parse(readFileSync('tests/mutants/equivalent.json', 'utf8'));

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: 'string', default: '300' },
    seed: { type: 'string', default: '20' },
    changed: { type: 'boolean', default: false },
    missed: { type: 'boolean', default: false },
    planted: { type: 'boolean', default: false },
    raise: { type: 'boolean', default: false },
  },
});
if (values.planted) {
  const { noticedBy, plantedFaults } = await import('./mutants/planted.mjs');
  let missed = 0;
  for (const planted of plantedFaults()) {
    const by = noticedBy(planted);
    missed += by === undefined ? 1 : 0;
    console.log(
      `${by === undefined ? 'MISSED ' : 'noticed'} ${planted.fault} (${planted.file}): ${by ?? planted.test}`,
    );
  }
  process.exit(missed === 0 ? 0 : 1);
}
const folders = JSON.parse(readFileSync(FOLDERS, 'utf8'));
const changed = values.changed ? changedFiles() : undefined;
if (changed?.length === 0) {
  console.log('No file of src differs from main.');
  process.exit(0);
}
const { draw, faultsIn, plant } = await import('./mutants/faults.mjs');
const { tryFaults } = await import('./mutants/try-faults.mjs');

/** Files of src that differ from main; none where there is no main to differ from. */
function changedFiles() {
  const options = { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] };
  const diff = ['diff', '--name-only', '--diff-filter=AM', 'main', '--', 'src'];
  try {
    return execFileSync('git', diff, options).split('\n').filter(Boolean);
  } catch {
    return [];
  }
}

/** @returns each fault that was drawn of a folder, with what became of it. */
async function tryFolder(name, folder) {
  const files = readdirSync(`src/${name}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join('src', name, file))
    .filter((file) => !changed || changed.includes(file));
  const drawn = draw(await faultsIn(files), Number(values.sample), Number(values.seed));
  if (drawn.length === 0) return [];
  const { sources, planted: all } = await plant(drawn);
  const planted = all.filter((fault) => !isEquivalent(fault));
  const before = values.missed ? lastRun(name) : new Set();
  const left = planted.filter((fault) => !before.has(keyOf(fault))).map(({ id }) => id);
  const found = await tryFaults({ sources, faults: left }, folder, name);
  const tried = planted.map((fault) => ({ ...fault, status: found.get(fault.id) ?? 'noticed' }));
  const noticed = tried.filter(({ status }) => status === 'noticed').map(keyOf);
  writeFileSync(`.mutants/${name}.json`, JSON.stringify(noticed));
  return tried;
}

const inOneLine = (code) => code.replaceAll(/\s+/g, ' ');

function isEquivalent({ fileName, location, replacement }) {
  const lines = readFileSync(fileName, 'utf8').split('\n').slice(location.start.line);
  const from = lines.join('\n').trimStart();
  return EQUIVALENT.some(
    ({ file, code, becomes }) =>
      file === fileName && from.startsWith(code) && becomes === inOneLine(replacement),
  );
}

/** A fault by what it changes: another source is another fault. */
function keyOf({ fileName, location, replacement }) {
  const source = readFileSync(fileName, 'utf8');
  return createHash('sha256')
    .update(JSON.stringify([fileName, source, location, replacement]))
    .digest('hex');
}

/** @returns keys of what the last run of a folder noticed */
function lastRun(name) {
  const file = `.mutants/${name}.json`;
  return new Set(existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : []);
}

const percent = (share) => `${(100 * share).toFixed(1)} %`;
let failed = false;
for (const [name, folder] of Object.entries(folders)) {
  if (positionals.length > 0 && !positionals.includes(name)) continue;
  const judged = await tryFolder(name, folder);
  if (judged.length === 0) continue;
  const missed = judged.filter(({ status }) => status !== 'noticed');
  const { share, lower, upper } = wilson(judged.length - missed.length, judged.length);
  for (const { fileName, location, mutatorName, replacement, status } of missed)
    console.log(
      `  ${status} ${fileName}:${location.start.line + 1}:${location.start.column + 1} ${mutatorName} -> ${inOneLine(replacement).slice(0, 70)}`,
    );
  const below = upper < folder.floor;
  failed ||= below;
  console.log(
    `${name}: ${judged.length - missed.length} of ${judged.length} noticed, ${percent(share)} (${percent(lower)} to ${percent(upper)}), floor ${percent(folder.floor)}${below ? ' BELOW ITS FLOOR' : ''}`,
  );
  if (!changed && lower > folder.floor) folder.floor = Math.floor(1000 * lower) / 1000;
}
if (values.raise) writeFileSync(FOLDERS, `${JSON.stringify(folders, null, 2)}\n`);
process.exit(failed ? 1 : 0);
