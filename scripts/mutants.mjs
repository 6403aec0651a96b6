// Plants faults in the numbers, one at a time, and counts those that a test notices.
//
//   npm run mutants                        every folder, 300 faults each, drawn with a seed
//   npm run mutants -- figures gauge       these folders
//   npm run mutants -- --sample 50         fewer
//   npm run mutants -- --changed           only files that differ from main; npm test does this with a few of them
//   npm run mutants -- --raise             writes floors that have risen to tests/mutants/folders.json
import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { parseArgs } from 'node:util';
import { wilson } from './mutants/wilson.mjs';

const FOLDERS = 'tests/mutants/folders.json';
const SEED = 20;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: 'string', default: '300' },
    changed: { type: 'boolean', default: false },
    raise: { type: 'boolean', default: false },
  },
});
const folders = JSON.parse(readFileSync(FOLDERS, 'utf8'));
const changed = values.changed ? changedFiles() : undefined;
if (changed?.length === 0) {
  console.log('No file of src differs from main.');
  process.exit(0);
}
const { Stryker } = await import('@stryker-mutator/core');
const { draw, faultsIn, keepOnly } = await import('./mutants/faults.mjs');

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

/** @returns what became of each fault of a folder: the verdicts of those that were drawn. */
async function tryFolder(name, { tests, without = [] }) {
  const files = readdirSync(`src/${name}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join('src', name, file))
    .filter((file) => !changed || changed.includes(file));
  const drawn = draw(await faultsIn(files), Number(values.sample), SEED);
  if (drawn.length === 0) return [];
  keepOnly(drawn);
  process.env.MUTANTS_TESTS = JSON.stringify(tests);
  process.env.MUTANTS_WITHOUT = JSON.stringify(without);
  return new Stryker({
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/mutants/vitest.config.ts' },
    coverageAnalysis: 'perTest',
    concurrency: 1,
    mutate: [...new Set(drawn.map(({ file }) => file))],
    // Long: a slow minute of the machine must not count as a fault that was noticed.
    timeoutMS: 60_000,
    timeoutFactor: 4,
    dryRunTimeoutMinutes: 20,
    ignorePatterns: ['dist', 'coverage'],
    tempDirName: '.mutants',
    reporters: [],
    logLevel: 'error',
    fileLogLevel: 'off',
  }).runMutationTest();
}

const percent = (share) => `${(100 * share).toFixed(1)} %`;
let failed = false;
for (const [name, folder] of Object.entries(folders)) {
  if (positionals.length > 0 && !positionals.includes(name)) continue;
  const verdicts = await tryFolder(name, folder);
  const judged = verdicts.filter(({ status }) =>
    ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(status),
  );
  if (judged.length === 0) continue;
  const missed = judged.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
  const { share, lower, upper } = wilson(judged.length - missed.length, judged.length);
  for (const { fileName, location, mutatorName, replacement, status } of missed)
    console.log(
      `  ${status === 'NoCoverage' ? 'not run ' : 'survived'} ${relative('.', fileName)}:${location.start.line}:${location.start.column} ${mutatorName} -> ${replacement.replaceAll(/\s+/g, ' ').slice(0, 70)}`,
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
