// The one command that checks everything. Runs the steps in order, stops at the first that fails, and closes with
// the number of tests that ran.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { findBrowser } from './find-browser.mjs';

const RESULTS = 'node_modules/.cache/hundredths/results';
rmSync(RESULTS, { recursive: true, force: true });
mkdirSync(RESULTS, { recursive: true });

let browser;
try {
  browser = findBrowser();
} catch (error) {
  console.error(error.message);
  process.exit(1);
}

const vitest = (...projects) => [
  'vitest',
  'run',
  ...projects.flatMap((project) => ['--project', project]),
  '--reporter=default',
  '--reporter=json',
  `--outputFile=${RESULTS}/${projects[0]}.json`,
];

const STEPS = [
  ['types', ['tsc', '--noEmit']],
  ['lint', ['eslint', '.', '--max-warnings', '0']],
  ['format', ['prettier', '--check', '--log-level', 'warn', '.']],
  ['unused code', ['knip']],
  ['unit and reference', vitest('unit', 'reference')],
  ['browser', ['wtr']],
  ['build', ['vite', 'build', '--logLevel', 'warn']],
  ['size', ['node', 'scripts/size.mjs']],
  ['journeys', vitest('journeys')],
];

function tally() {
  let passed = 0;
  let failed = 0;
  for (const name of ['unit', 'browser', 'journeys']) {
    const file = `${RESULTS}/${name}.json`;
    if (!existsSync(file)) continue;
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(file, 'utf8'));
    passed += numPassedTests;
    failed += numFailedTests;
  }
  return { passed, failed };
}

let failedStep;
for (const [name, [command, ...args]] of STEPS) {
  const started = Date.now();
  console.log(`\n=== ${name}`);
  const program = command === 'node' ? process.execPath : `node_modules/.bin/${command}`;
  const { status } = spawnSync(program, args, {
    stdio: 'inherit',
    env: { ...process.env, CHROME_PATH: browser },
  });
  console.log(
    `=== ${name}: ${status === 0 ? 'fine' : 'FAILED'} after ${((Date.now() - started) / 1000).toFixed(1)} s`,
  );
  if (status !== 0) {
    failedStep = name;
    break;
  }
}

const { passed, failed } = tally();
if (failedStep) console.error(`\nStopped at: ${failedStep}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exit(failedStep || failed > 0 || passed === 0 ? 1 : 0);
